using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Geometry.Fitting;

/// <summary>A line with the least sum of squared normal distances.</summary>
/// <param name="Centroid">Of the points; the line goes through it.</param>
/// <param name="Direction">Unit vector, from the first point towards the last.</param>
/// <param name="ResidualSd">Standard deviation of the normal distances, n - 2 degrees of freedom.</param>
/// <param name="OffsetSd">Standard uncertainty of the line's place along its normal, at the centroid.</param>
/// <param name="AngleSdRad">Standard uncertainty of its direction; independent of the offset at the centroid.</param>
public sealed record FittedLine(Vector2 Centroid, Vector2 Direction, double ResidualSd, double OffsetSd, double AngleSdRad)
{
    /// <summary>Signed distance of a point, positive on the side that x-to-y turning points to.</summary>
    public double Distance(Vector2 p) => (p - Centroid).Dot(Direction.Perpendicular);

    /// <summary>Standard uncertainty of the line's place along its normal, beside the point nearest to <paramref name="p"/>.</summary>
    public double OffsetSdAt(Vector2 p) => Quadrature.Sum(OffsetSd, AngleSdRad * (p - Centroid).Dot(Direction));
}

/// <summary>Total least squares for a straight line: errors in both coordinates alike.</summary>
/// <remarks>Direction is the greater axis of the scatter matrix (Pearson 1901). Offset and angle variance: sigma²/n and sigma²/Σu², first order in sigma/length.</remarks>
public static class TotalLeastSquaresLine
{
    /// <summary>Fits the line.</summary>
    /// <param name="points">At least 3, not all in one place, longer than wide.</param>
    /// <param name="sigma">Standard deviation of a normal distance, independent from point to point; null: from the residuals.</param>
    /// <returns>The line, or the refusal <c>line-too-few-points</c>, <c>line-degenerate</c> (no direction stands out).</returns>
    public static Outcome<FittedLine> Fit(ReadOnlySpan<Vector2> points, double? sigma = null)
    {
        if (points.Length < 3) return new Refusal("line-too-few-points", "There are too few points for a line", "A longer stretch is needed.", points.Length, 3, "points");
        Vector2 c = default;
        foreach (Vector2 p in points) c += p;
        c = 1.0 / points.Length * c;
        double xx = 0, xy = 0, yy = 0;
        foreach (Vector2 p in points)
        {
            Vector2 d = p - c;
            xx += d.X * d.X; xy += d.X * d.Y; yy += d.Y * d.Y;
        }
        double mean = (xx + yy) / 2, half = Math.Sqrt((xx - yy) * (xx - yy) / 4 + xy * xy);
        // Along: sum of squares along the line. A ratio of 4 (twice as long as wide) is where the direction stops being first order.
        double along = mean + half, across = Math.Max(0, mean - half);
        if (!(along > 4 * across) || along <= 0)
            return new Refusal("line-degenerate", "The points do not form a line", "A longer stretch is needed.", across, along / 4, "squares");
        double angle = 0.5 * Math.Atan2(2 * xy, xx - yy);
        Vector2 t = new(Math.Cos(angle), Math.Sin(angle));
        if (t.Dot(points[^1] - points[0]) < 0) t = -1 * t;
        double residualSd = Math.Sqrt(across / (points.Length - 2)), sd = sigma ?? residualSd;
        return new FittedLine(c, t, residualSd, sd / Math.Sqrt(points.Length), sd / Math.Sqrt(along));
    }
}
