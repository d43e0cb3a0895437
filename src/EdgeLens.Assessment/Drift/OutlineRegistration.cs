using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;

namespace EdgeLens.Assessment.Drift;

/// <summary>
/// Today's outline laid on the baseline over what does not wear: generalised least squares of the distances along the baseline's normals, in
/// shift, turn and scale, the scale held by its prior.
/// </summary>
/// <remarks>
/// Distances d (today's outline inside the baseline, mm) change by J·δ when today's outline moves by δ = (shift x, shift z, turn, relative scale);
/// Gauss-Newton: (JᵀC⁻¹J + P) δ = -(JᵀC⁻¹ d + P·current), P = 1/u² for the scale's logarithm and 0 else (Bayes with a normal prior). C holds every error
/// of <see cref="EdgeErrors"/> on the reference with its correlation, so that what could be parallax or light is not taken for a shift. A displacement e of
/// the outline makes the error -A e of the parameters, A = (JᵀC⁻¹J + P)⁻¹ JᵀC⁻¹: all uncertainty of drift passes through A.
/// Steel only wears: distances beyond two standard deviations inwards lose weight with their square, outwards with their size (dirt).
/// </remarks>
internal sealed class OutlineRegistration
{
    private const int MostIterations = 40;

    private OutlineRegistration(Similarity map, Vector2 pivot, EdgePlace[] places, Matrix<double> gain, double[] ownVariance, double residualMm, double cost)
    {
        BaselineFromToday = map;
        Pivot = pivot;
        Places = places;
        Gain = gain;
        OwnVariance = ownVariance;
        ResidualMm = residualMm;
        Cost = cost;
    }

    public Similarity BaselineFromToday { get; }

    public Vector2 Pivot { get; }

    /// <summary>The reference.</summary>
    public EdgePlace[] Places { get; }

    /// <summary>4 x places: A above.</summary>
    public Matrix<double> Gain { get; }

    /// <summary>Variance of each place of the reference that is its own (wear, down-weighted outliers), mm².</summary>
    public double[] OwnVariance { get; }

    /// <summary>Root mean square of the weighted distances left, mm.</summary>
    public double ResidualMm { get; }

    private double Cost { get; }

    /// <summary>The best of several starts.</summary>
    /// <param name="reference">Places on the baseline, their standard uncertainty that of both outlines.</param>
    /// <param name="offsets">Where the baseline's own averaged line lies at these places, mm inwards.</param>
    /// <param name="today">In its own frame.</param>
    /// <param name="starts">First guesses of baseline-from-today.</param>
    /// <param name="errorsAt">The error model for a registration.</param>
    /// <param name="referenceEndZMm">Where the reference ends.</param>
    /// <param name="options">Assumptions.</param>
    public static Outcome<OutlineRegistration> Find(
        EdgePlace[] reference, double[] offsets, OutlineCurve today, IEnumerable<Similarity> starts, Func<Similarity, Vector2, EdgeErrors> errorsAt, double referenceEndZMm, DriftOptions options)
    {
        OutlineRegistration? best = null;
        foreach (Similarity start in starts)
            if (FromStart(reference, offsets, today, start, errorsAt, referenceEndZMm, options) is { } found && (best is null || found.Cost < best.Cost)) best = found;
        if (best is null)
            return new Refusal("reference-not-seen", "Too little of the heel is seen in both photographs to lay today's outline on the as-new one.",
                "Retake the photograph with the whole blade and the first millimetre of the shank in the window.");
        if (best.ResidualMm * 1000 > options.GreatestResidualUm)
            return new Refusal("reference-differs", "The heel of the blade does not fit the as-new outline.",
                "Check that both photographs show the same working end, clean at the heel.", best.ResidualMm * 1000, options.GreatestResidualUm, "µm");
        return best;
    }

    private static OutlineRegistration? FromStart(
        EdgePlace[] reference, double[] offsets, OutlineCurve today, Similarity map, Func<Similarity, Vector2, EdgeErrors> errorsAt, double referenceEndZMm, DriftOptions options)
    {
        Vector2 pivot = 1.0 / reference.Length * reference.Aggregate(new Vector2(0, 0), (sum, p) => sum + p.Position);
        EdgeErrors errors = errorsAt(map, pivot);
        double[] weights = new double[reference.Length];
        Array.Fill(weights, 1.0);
        for (int iteration = 0; ; iteration++)
        {
            DriftPolyline moved = today.Line.Mapped(map);
            List<int> seen = [];
            List<double> distances = [];
            for (int i = 0; i < reference.Length; i++)
                if (moved.SmoothCrossing(reference[i].Position, reference[i].Inward, 0.5, options.HalfWindowMm) is { } hit)
                {
                    seen.Add(i);
                    distances.Add(hit.Distance - offsets[i]);
                }
            if (seen.Count(i => reference[i].Position.X > 0) < 8 || seen.Count(i => reference[i].Position.X < 0) < 8) return null;
            EdgePlace[] places = [.. seen.Select(i => reference[i])];
            Vector<double> d = Vector.Build.DenseOfEnumerable(distances);
            double[] plain = [.. places.Select(p => errors.ReferenceVariance(p, referenceEndZMm) + errors.Noise(p, p) + 2 * errors.Slow(p, p))];
            double[] own = [.. places.Select((p, k) => errors.ReferenceVariance(p, referenceEndZMm) + (1 / weights[seen[k]] - 1) * plain[k])];
            Matrix<double> j = Jacobian(places, pivot), weight = Covariance(places, own, errors).Cholesky().Solve(j);
            double prior = 1 / (errors.ScaleUncertainty * errors.ScaleUncertainty);
            Matrix<double> normal = j.TransposeThisAndMultiply(weight);
            normal[3, 3] += prior;
            Vector<double> right = -weight.TransposeThisAndMultiply(d);
            right[3] -= prior * Math.Log(map.Scale);
            Vector<double> step = normal.Cholesky().Solve(right);
            map = Step(step, pivot) * map;

            Vector<double> left = d + j * step;
            double[] spread = [.. plain.Select(v => Math.Sqrt(v))];
            double change = Reweigh(weights, seen, left, spread);
            if (iteration < 3 || (step.L2Norm() > 1e-7 || change > 1e-3) && iteration < MostIterations) continue;
            double sum = seen.Sum(i => weights[i]);
            double residual = Math.Sqrt(seen.Select((i, k) => weights[i] * left[k] * left[k]).Sum() / sum);
            // Misses and outliers cost: a start that throws half the reference away must not win by fitting the rest.
            double cost = seen.Select((i, k) => Math.Min(9, Math.Pow(left[k] / spread[k], 2))).Sum() + 9 * (reference.Length - seen.Count)
                + prior * Math.Pow(Math.Log(map.Scale), 2);
            return new(map, pivot, places, normal.Cholesky().Solve(weight.Transpose()), own, residual, cost);
        }
    }

    /// <summary>Displacement along the inward normals per unit of (shift x, shift z, turn, relative scale) about the pivot.</summary>
    public static Matrix<double> Jacobian(IReadOnlyList<EdgePlace> places, Vector2 pivot) => DenseMatrix.Build.Dense(places.Count, 4, (i, k) =>
    {
        Vector2 n = places[i].Inward, r = places[i].Position - pivot;
        return k switch { 0 => n.X, 1 => n.Y, 2 => n.Dot(r.Perpendicular), _ => n.Dot(r) };
    });

    private static DenseMatrix Covariance(EdgePlace[] places, double[] own, EdgeErrors errors)
    {
        int n = places.Length;
        double[][] patterns = [.. errors.Patterns.Select(f => places.Select(p => f.StandardUncertainty * f.DisplacementMm(p)).ToArray())];
        DenseMatrix c = new(n, n);
        for (int i = 0; i < n; i++)
            for (int k = i; k < n; k++)
            {
                double v = errors.Noise(places[i], places[k]) + 2 * errors.Slow(places[i], places[k]);
                foreach (double[] f in patterns) v += f[i] * f[k];
                c[i, k] = c[k, i] = i == k ? v + own[i] : v;
            }
        return c;
    }

    private static double Reweigh(double[] weights, List<int> seen, Vector<double> left, double[] spread)
    {
        // While today's outline still lies far off, everything is far: the spread is at least the middle distance, and a bad start does not lock in.
        double middle = 1.48 * seen.Select((_, k) => Math.Abs(left[k]) / spread[k]).Order().ElementAt(seen.Count / 2);
        double change = 0, unit = Math.Max(1, middle);
        for (int k = 0; k < seen.Count; k++)
        {
            double t = left[k] / (2 * spread[k] * unit);
            double w = t > 1 ? 1 / (t * t) : t < -1 ? -1 / t : 1;
            change = Math.Max(change, Math.Abs(w - weights[seen[k]]));
            weights[seen[k]] = w;
        }
        return change;
    }

    private static Similarity Step(Vector<double> step, Vector2 pivot)
    {
        Similarity about = new(Math.Exp(step[3]), step[2], 0, 0);
        Vector2 shift = pivot - about.Apply(pivot) + new Vector2(step[0], step[1]);
        return about with { Dx = shift.X, Dy = shift.Y };
    }
}
