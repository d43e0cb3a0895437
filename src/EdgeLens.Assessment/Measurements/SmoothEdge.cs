using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Measurements;

/// <summary>
/// The smooth edge beside a place of the outline: a polynomial of degree 4 through the surroundings (window 1.5 mm of arc, measurands.md) in coordinates u along
/// the edge and v into the steel, counted from a straight line, or where the edge turns from a circle that turns as much. Only the departure from that
/// circle is left to the polynomial: laid over a straight line it cannot follow a toe of 0.42 mm over ±60° and reads a nick there a fifth too shallow.
/// The window is cut where the edge has turned by 60°, so that a toe is not bridged from side to side.
/// </summary>
internal sealed class SmoothEdge
{
    /// <summary>Half of the window (measurands.md: 1.5 mm).</summary>
    public const double HalfWindowMm = 0.75;

    /// <summary>Surroundings needed on either side: a longer nick than this has none left in the window.</summary>
    public const double LeastReachMm = 0.15;

    private const int Degree = 4;

    /// <summary>A plainer smooth edge, which follows the run of a toe into a side and no step: where the two disagree the surroundings are no smooth edge.</summary>
    public const int PlainDegree = 3;

    /// <summary>Half the stretch whose chord gives the direction of u: longer than a nick, so that its flanks do not turn the frame.</summary>
    private const double ChordHalfMm = 0.4;

    /// <summary>tan(60°/2): on a circle v/u where the edge has turned by 60°.</summary>
    private const double TurnLimit = 0.5774;

    /// <summary>Where the turn limit begins to count, so that the noise of near points does not end the window.</summary>
    private const double TurnFromMm = 0.1;

    /// <summary>Weight of points inside the fit in the first, one-sided rounds: nicks lie inside only, so the start leans on what stands outside (expectile 0.9).</summary>
    private const double InsideWeight = 0.1;

    private const int OneSidedRounds = 5;

    /// <summary>Change of the smooth edge, in noises, at which it stands.</summary>
    private const double SettledShare = 0.02;

    private const int RobustRounds = 8;

    private readonly Vector2 _origin;
    private readonly Vector2 _u;
    private readonly ReferenceCircle? _circle;

    private SmoothEdge(int first, int index, ReadOnlySpan<Vector2> places, Vector2 u, ReferenceCircle? circle, double[] sigma)
    {
        (FirstIndex, Index, Sigma, _origin, _u, _circle) = (first, index, sigma, places[index], u, circle);
        Along = new double[places.Length];
        Depth = new double[places.Length];
        for (int i = 0; i < places.Length; i++)
        {
            Vector2 d = places[i] - (circle?.Centre ?? _origin);
            (Along[i], Depth[i]) = circle is { } c
                ? (c.Side * c.Radius * Math.Atan2((_origin - c.Centre).Cross(d), (_origin - c.Centre).Dot(d)), c.Side * (c.Radius - d.Length))
                : (d.Dot(u), d.Dot(u.Perpendicular));
        }
    }

    /// <summary>First outline point of the window.</summary>
    public int FirstIndex { get; }

    /// <summary>The place itself, counted in the window.</summary>
    public int Index { get; }

    /// <summary>u of every point of the window, mm; 0 at the place.</summary>
    public double[] Along { get; }

    /// <summary>v of every point of the window, mm.</summary>
    public double[] Depth { get; }

    /// <summary>Standard uncertainties, mm.</summary>
    public double[] Sigma { get; }

    /// <summary>Cuts the window round an outline point; null where less than <see cref="LeastReachMm"/> of edge is left on one side.</summary>
    public static SmoothEdge? Around(Outline outline, int index)
    {
        ReadOnlySpan<OutlinePoint> points = outline.Points.AsSpan();
        double arc = points[index].ArcMm;
        int a = index, b = index;
        while (a > 0 && points[a].ArcMm > arc - ChordHalfMm) a--;
        while (b < points.Length - 1 && points[b].ArcMm < arc + ChordHalfMm) b++;
        Vector2 origin = Place(points[index]), chord = Place(points[b]) - Place(points[a]);
        if (!(chord.Length > 0)) return null;
        Vector2 u = chord.Unit, v = u.Perpendicular;
        int first = index, last = index;
        while (first > 0 && Belongs(points[first - 1])) first--;
        while (last < points.Length - 1 && Belongs(points[last + 1])) last++;
        if (arc - points[first].ArcMm < LeastReachMm || points[last].ArcMm - arc < LeastReachMm) return null;
        Vector2[] places = new Vector2[last - first + 1];
        double[] sigma = new double[places.Length];
        for (int i = 0; i < places.Length; i++) (places[i], sigma[i]) = (Place(points[first + i]), points[first + i].StandardUncertaintyUm / 1000);
        return new(first, index - first, places, u, ReferenceCircle.Through(points[first], points[last]), sigma);

        bool Belongs(OutlinePoint p)
        {
            Vector2 d = Place(p) - origin;
            double run = Math.Abs(d.Dot(u));
            return Math.Abs(p.ArcMm - arc) <= HalfWindowMm && (run < TurnFromMm ? d.Length < 2 * TurnFromMm : d.Dot(v) < TurnLimit * run);
        }
    }

    /// <summary>The place in the outline's frame that has the coordinates u and v.</summary>
    public Vector2 At(double u, double v)
    {
        if (_circle is not { } c) return _origin + u * _u + v * _u.Perpendicular;
        (double sin, double cos) = Math.SinCos(c.Side * u / c.Radius);
        Vector2 d = (_origin - c.Centre).Unit;
        return c.Centre + (c.Radius - c.Side * v) * (cos * d + sin * d.Perpendicular);
    }

    /// <summary>The smooth edge when it is not yet known where nicks are: one-sided start, then Tukey's weights. Null when it cannot be fitted.</summary>
    public PolynomialFit? FitRobustly()
    {
        double[] weights = new double[Along.Length], size = new double[Along.Length];
        Array.Fill(weights, 1);
        PolynomialFit? fit = PolynomialFit.Of(Along, Depth, Degree, 0, weights);
        double noise = RobustSmoother.Median(Sigma), last = 0;
        for (int round = 0; round < OneSidedRounds + RobustRounds && fit is not null; round++)
        {
            for (int i = 0; i < size.Length; i++) size[i] = Depth[i] - fit.At(Along[i]);
            if (round < OneSidedRounds)
            {
                for (int i = 0; i < size.Length; i++) weights[i] = size[i] > 0 ? InsideWeight : 1;
            }
            else
            {
                double scale = Math.Max(noise, 1.4826 * RobustSmoother.Median(Array.ConvertAll(size, Math.Abs)));
                for (int i = 0; i < size.Length; i++) weights[i] = RobustSmoother.Weight(size[i] / scale, RobustLoss.Tukey);
            }
            fit = PolynomialFit.Of(Along, Depth, Degree, 0, weights);
            // Settled: the smooth edge at the place itself is all that is asked for.
            if (fit is not null && round > OneSidedRounds && Math.Abs(fit.At(0) - last) < SettledShare * noise) break;
            last = fit?.At(0) ?? 0;
        }
        return fit;
    }

    /// <summary>The smooth edge from the surroundings alone, least squares with the points' uncertainties.</summary>
    /// <param name="fromIndex">First outline point of the nick, left out.</param>
    /// <param name="toIndex">Last outline point of the nick, left out.</param>
    /// <param name="degree">Of the polynomial.</param>
    /// <returns>Null where the surroundings are too short for a polynomial.</returns>
    public PolynomialFit? FitWithout(int fromIndex, int toIndex, int degree = Degree)
    {
        double[] weights = new double[Along.Length];
        for (int i = 0; i < weights.Length; i++) weights[i] = FirstIndex + i >= fromIndex && FirstIndex + i <= toIndex ? 0 : 1 / (Sigma[i] * Sigma[i]);
        return PolynomialFit.Of(Along, Depth, degree, 0, weights);
    }

    private static Vector2 Place(OutlinePoint p) => new(p.Position.XMm, p.Position.ZMm);

    /// <summary>A circle as curved abscissa: through the window's two ends, turning by the angle between their normals. It need not fit, the polynomial does that.</summary>
    /// <param name="Centre">Centre.</param>
    /// <param name="Radius">Radius.</param>
    /// <param name="Side">1 where the centre lies in the steel (a rounded edge), -1 where it lies outside (a hollow one).</param>
    private readonly record struct ReferenceCircle(Vector2 Centre, double Radius, int Side)
    {
        /// <summary>Less turn than this (20°) and a polynomial of degree 4 over the chord follows within 0.1 µm, while the normals' 3° of noise would make the circle.</summary>
        private const double LeastTurnRad = 0.35;

        public static ReferenceCircle? Through(OutlinePoint first, OutlinePoint last)
        {
            double turn = Math.Atan2(first.Inward.Cross(last.Inward), first.Inward.Dot(last.Inward));
            if (Math.Abs(turn) < LeastTurnRad) return null;
            Vector2 chord = Place(last) - Place(first);
            int side = Math.Sign(turn);
            double half = 0.5 * chord.Length;
            return new(Place(first) + 0.5 * chord + side * half / Math.Tan(Math.Abs(turn) / 2) * chord.Unit.Perpendicular, half / Math.Sin(Math.Abs(turn) / 2), side);
        }
    }
}
