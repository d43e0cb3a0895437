using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Geometry.Fitting;

/// <summary>The similarity that carries points a onto points b with the least weighted sum of squared distances.</summary>
/// <param name="BFromA">The transform.</param>
/// <param name="CentroidA">Weighted centroid of a: place, angle and scale are uncorrelated there.</param>
/// <param name="ResidualSd">Standard deviation of one coordinate's residual of weight 1.</param>
/// <param name="PlaceSd">Standard uncertainty of the centroid's image, per coordinate, unit of b.</param>
/// <param name="AngleSdRad">Standard uncertainty of the angle.</param>
/// <param name="ScaleSd">Standard uncertainty of the scale; 0 when it was held.</param>
public sealed record SimilarityFit(Similarity BFromA, Vector2 CentroidA, double ResidualSd, double PlaceSd, double AngleSdRad, double ScaleSd)
{
    /// <summary>Standard uncertainty, per coordinate and on the worse one at most, of the image of a point of a.</summary>
    public double ImageSdAt(Vector2 a)
    {
        double r = (a - CentroidA).Length;
        return Quadrature.Sum(PlaceSd, r * BFromA.Scale * Math.Max(AngleSdRad, ScaleSd / BFromA.Scale));
    }

    /// <summary>Fits the similarity.</summary>
    /// <param name="a">At least 2 points, not all in one place.</param>
    /// <param name="b">Their partners.</param>
    /// <param name="weights">Above 0, 1/variance up to a factor; empty for equal ones.</param>
    /// <param name="heldScale">The scale if it is known, null to fit it.</param>
    /// <returns>The fit (never mirrored), or the refusal <c>similarity-degenerate</c>.</returns>
    /// <remarks>
    /// Umeyama, IEEE PAMI 13 (1991) 376-380. In the plane the singular value decomposition of his equation (38) has a closed form: with centred a and b,
    /// C = Σ w a·b, S = Σ w a×b, the best angle is atan2(S, C) and the best scale √(C² + S²) / Σ w a² (his equations 40 to 42).
    /// Variances: sigma²/Σw for the place, sigma²/(s² Σ w a²) for the angle, sigma²/Σ w a² for the scale (normal equations, diagonal at the centroid).
    /// </remarks>
    public static Outcome<SimilarityFit> Of(ReadOnlySpan<Vector2> a, ReadOnlySpan<Vector2> b, ReadOnlySpan<double> weights = default, double? heldScale = null)
    {
        if (a.Length != b.Length || (weights.Length != 0 && weights.Length != a.Length)) throw new ArgumentException("Points, partners and weights must be as many.", nameof(b));
        double sw = 0;
        Vector2 ca = default, cb = default;
        for (int i = 0; i < a.Length; i++)
        {
            double w = weights.Length == 0 ? 1 : weights[i];
            sw += w;
            ca += w * a[i];
            cb += w * b[i];
        }
        ca = 1 / sw * ca;
        cb = 1 / sw * cb;
        double dot = 0, cross = 0, aa = 0;
        for (int i = 0; i < a.Length; i++)
        {
            double w = weights.Length == 0 ? 1 : weights[i];
            Vector2 p = a[i] - ca, q = b[i] - cb;
            dot += w * p.Dot(q);
            cross += w * p.Cross(q);
            aa += w * p.Dot(p);
        }
        double strength = Math.Sqrt(dot * dot + cross * cross);
        if (a.Length < 2 || !(aa > 0) || !(strength > 0))
            return new Refusal("similarity-degenerate", "The points do not fix a turn", "Points at two different places at least are needed.", a.Length, 2, "points");
        double scale = heldScale ?? strength / aa;
        Similarity turn = new(scale, Math.Atan2(cross, dot), 0, 0);
        Vector2 shift = cb - turn.Apply(ca);
        Similarity bFromA = turn with { Dx = shift.X, Dy = shift.Y };
        double squares = 0;
        for (int i = 0; i < a.Length; i++)
        {
            Vector2 r = b[i] - bFromA.Apply(a[i]);
            squares += (weights.Length == 0 ? 1 : weights[i]) * r.Dot(r);
        }
        int freedom = 2 * a.Length - (heldScale is null ? 4 : 3);
        double sd = freedom > 0 ? Math.Sqrt(squares / freedom) : 0;
        return new SimilarityFit(bFromA, ca, sd, sd / Math.Sqrt(sw), sd / (scale * Math.Sqrt(aa)), heldScale is null ? sd / Math.Sqrt(aa) : 0);
    }
}
