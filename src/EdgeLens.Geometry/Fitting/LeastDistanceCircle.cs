using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Geometry.Fitting;

/// <summary>Least-distance circle through points (not the algebraic fit, which is too small on short arcs).</summary>
/// <remarks>Gauss-Newton from the algebraic fit, halving a step that does not improve; Gander, Golub, Strebel, BIT 34 (1994) 558-578, section 3.</remarks>
public static class LeastDistanceCircle
{
    /// <summary>Fewest points: three make a circle, two more let its residuals say something.</summary>
    public const int FewestPoints = 5;

    /// <summary>
    /// Shortest arc, degrees, seen from the centre. On ±5° the sagitta is 0.4 % of the radius: what the fit then tells is the noise's curvature.
    /// </summary>
    public const double ShortestArcDeg = 10;

    /// <summary>Greatest relative standard uncertainty of the radius; beyond it the linear propagation no longer holds and the radius says nothing.</summary>
    public const double GreatestRelativeRadiusUncertainty = 0.3;

    private const int MostIterations = 100;

    /// <summary>Step, in radii, at which the circle stands: 0.1 pm on a toe.</summary>
    private const double Settled = 1e-10;

    /// <summary>A step halved to this share without gain means that rounding has been reached.</summary>
    private const double ShortestStep = 1e-3;

    /// <summary>Fits the circle with the least sum of squared distances.</summary>
    /// <param name="points">At least <see cref="FewestPoints"/>, all in one unit.</param>
    /// <param name="sigma">Standard deviation of a point's distance, same unit, independent from point to point; null: estimated from the residuals.</param>
    /// <returns>The circle, or a refusal: <c>circle-too-few-points</c>, <c>circle-not-finite</c>, <c>circle-degenerate</c> (points on a line or in one place),
    /// <c>circle-arc-too-short</c>, <c>circle-radius-unknown</c>.</returns>
    public static Outcome<FittedCircle> Fit(ReadOnlySpan<Vector2> points, double? sigma = null)
    {
        if (points.Length < FewestPoints)
            return Refuse("circle-too-few-points", "There are too few points for a circle", points.Length, FewestPoints, "points");
        Vector2 centroid = default;
        foreach (Vector2 p in points) centroid += p;
        centroid = 1.0 / points.Length * centroid;
        double spread = 0;
        foreach (Vector2 p in points) spread += (p - centroid).Dot(p - centroid);
        spread = Math.Sqrt(spread / points.Length);
        if (!double.IsFinite(spread)) return Refuse("circle-not-finite", "A point of the arc has no finite place");
        if (spread <= 1e-12 * centroid.Length) return Refuse("circle-degenerate", "All points of the arc lie in one place");

        // Shifted and scaled to order 1, so that thresholds mean the same for a toe and for a card.
        Vector2[] q = new Vector2[points.Length];
        for (int i = 0; i < q.Length; i++) q[i] = 1 / spread * (points[i] - centroid);
        if (Algebraic(q) is not { } circle) return Refuse("circle-degenerate", "The points lie on a straight line");
        double cost = Cost(q, circle);
        for (int k = 0; k < MostIterations; k++)
        {
            if (NormalEquations(q, circle) is not { } equations) return Refuse("circle-degenerate", "The points lie on a straight line");
            double[] step = equations.Rhs;
            SmallCholesky.Solve(equations.Factor, 3, step);
            if (Quadrature.Sum(step) < Settled * circle.Radius) break;
            double length = 1;
            (Vector2 Centre, double Radius) next;
            double nextCost;
            do
            {
                next = (circle.Centre + length * new Vector2(step[0], step[1]), circle.Radius + length * step[2]);
                nextCost = Cost(q, next);
                length /= 2;
            }
            while (nextCost > cost && length > ShortestStep);
            if (nextCost >= cost) break;
            (circle, cost) = (next, nextCost);
        }

        double arcDeg = ArcDeg(q, circle.Centre);
        if (arcDeg < ShortestArcDeg) return Refuse("circle-arc-too-short", "The arc is too short to have a radius", arcDeg, ShortestArcDeg, "°");
        if (NormalEquations(q, circle) is not { } last) return Refuse("circle-degenerate", "The points lie on a straight line");
        double[][] cofactor = [Unit(0), Unit(1), Unit(2)];
        double residualSd = spread * Math.Sqrt(cost / (q.Length - 3));
        double sd = sigma ?? residualSd;
        double radius = circle.Radius * spread, radiusSd = sd * Math.Sqrt(cofactor[2][2]);
        if (!(radiusSd < GreatestRelativeRadiusUncertainty * radius))
            return Refuse("circle-radius-unknown", "The arc is too short and too uneven to have a radius", radiusSd / radius, GreatestRelativeRadiusUncertainty, "of the radius");
        CircleSensitivity[] sensitivities = new CircleSensitivity[q.Length];
        for (int i = 0; i < q.Length; i++)
        {
            Vector2 u = (q[i] - circle.Centre).Unit;
            sensitivities[i] = new(Row(0, u), Row(1, u), Row(2, u));
        }
        return new FittedCircle(centroid + spread * circle.Centre, radius, arcDeg, residualSd, sd * Math.Sqrt(cofactor[0][0]), sd * Math.Sqrt(cofactor[1][1]), radiusSd,
            [.. sensitivities]);

        // δ(cx, cy, r) = (JᵀJ)⁻¹ (ux, uy, 1) per unit of outward displacement: J = -(ux, uy, 1).
        double Row(int k, Vector2 u) => cofactor[k][0] * u.X + cofactor[k][1] * u.Y + cofactor[k][2];

        double[] Unit(int k)
        {
            double[] e = [k == 0 ? 1 : 0, k == 1 ? 1 : 0, k == 2 ? 1 : 0];
            SmallCholesky.Solve(last.Factor, 3, e);
            return e;
        }
    }

    /// <summary>Start: least squares in 2 c·p + (r² - c²) = p² (Kåsa 1976).</summary>
    private static (Vector2 Centre, double Radius)? Algebraic(Vector2[] q)
    {
        double xx = 0, xy = 0, yy = 0, xr = 0, yr = 0, r = 0;
        foreach (Vector2 p in q)
        {
            double s = p.Dot(p);
            xx += p.X * p.X; xy += p.X * p.Y; yy += p.Y * p.Y; xr += p.X * s; yr += p.Y * s; r += s;
        }
        // The points are centred, so the sums of x and y vanish and the third unknown separates.
        double det = xx * yy - xy * xy;
        if (det < 1e-14 * q.Length * q.Length) return null;
        Vector2 c = new(0.5 * (xr * yy - yr * xy) / det, 0.5 * (yr * xx - xr * xy) / det);
        return (c, Math.Sqrt(r / q.Length + c.Dot(c)));
    }

    /// <summary>Jᵀ J as Cholesky factor and -Jᵀ d for the unknowns (cx, cy, r); null when they do not fix the circle.</summary>
    private static (double[] Factor, double[] Rhs)? NormalEquations(Vector2[] q, (Vector2 Centre, double Radius) circle)
    {
        double xx = 0, xy = 0, yy = 0, x = 0, y = 0, dx = 0, dy = 0, d1 = 0;
        foreach (Vector2 p in q)
        {
            Vector2 v = p - circle.Centre;
            double l = v.Length;
            if (l == 0) continue;
            double ux = v.X / l, uy = v.Y / l, d = l - circle.Radius;
            xx += ux * ux; xy += ux * uy; yy += uy * uy; x += ux; y += uy; dx += ux * d; dy += uy * d; d1 += d;
        }
        double[] normal = [xx, 0, 0, xy, yy, 0, x, y, q.Length];
        return SmallCholesky.TryFactor(normal, 3) ? (normal, [dx, dy, d1]) : null;
    }

    private static double Cost(Vector2[] q, (Vector2 Centre, double Radius) circle)
    {
        double sum = 0;
        foreach (Vector2 p in q)
        {
            double d = (p - circle.Centre).Length - circle.Radius;
            sum += d * d;
        }
        return sum;
    }

    /// <summary>The full turn less the widest gap between neighbours, seen from the centre.</summary>
    private static double ArcDeg(Vector2[] q, Vector2 centre)
    {
        double[] angles = [.. q.Select(p => Math.Atan2(p.Y - centre.Y, p.X - centre.X)).Order()];
        double gap = angles[0] + 2 * Math.PI - angles[^1];
        for (int i = 1; i < angles.Length; i++) gap = Math.Max(gap, angles[i] - angles[i - 1]);
        return (2 * Math.PI - gap) * 180 / Math.PI;
    }

    private static Refusal Refuse(string code, string reason, double? figure = null, double? limit = null, string? unit = null) =>
        new(code, reason, "A longer and cleaner stretch of the outline is needed.", figure, limit, unit);
}
