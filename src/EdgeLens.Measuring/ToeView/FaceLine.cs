using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Lines;

namespace EdgeLens.Measuring.ToeView;

/// <summary>Sets the fitted edge of the toe on the step of light in the picture: place and direction of the face line, the form of the edge kept.</summary>
/// <remarks>
/// The form comes from the whole followed path, which at its ends may run on along other borders. Between the corners the place of the step is measured anew, square to
/// the edge, as the centre of gravity of the brightness's slope; where bright steel turns to dark, the step vanishes and its place is noise: each place
/// counts with its step. A straight line through what is left over, with bounded influence, turns and moves the edge.
/// </remarks>
internal static class FaceLine
{
    private const double SearchPx = 3, CentrePx = 1.2, ProfilePx = 0.25;
    private const int ProfileReach = 20;
    private const double ColumnPx = 2;
    private const int HalfMean = 2;

    // Within this share of the half width the U is flat enough for its form's error to move it by less than a fifth of a pixel.
    private const double Share = 0.9;

    // More contrast than this makes a place no surer: what is left is the edge's own unevenness, a third of a pixel (measured on rendered edges).
    private const double EnoughTones = 20, UnevenPx = 0.35;
    private const int Rounds = 10;
    private const double LeastTones = 4;

    // Neighbouring places share their columns and the same unevenness of the edge.
    private const double Correlation = 4;

    /// <summary>The edge set on its step; as it was where the step is too faint.</summary>
    public static ToeEdge Refine(TonePicture picture, ToeEdge edge) => Set(picture, Set(picture, edge));

    private static ToeEdge Set(TonePicture picture, ToeEdge edge)
    {
        double w = edge.HalfWidthMm.Value;
        List<double> x = [], y = [], weight = [];
        for (double along = -Share * w; along <= Share * w; along += ColumnPx * edge.MmPerPx)
            if (Step(picture, edge, along) is { } step && step.Tones >= LeastTones)
            {
                x.Add(along / edge.MmPerPx);
                y.Add(step.UpPx);
                weight.Add(Math.Min(step.Tones, EnoughTones) / EnoughTones);
            }
        if (x.Count < 12) return edge;
        double offset = 0, slope = 0, slopeVariance = 0;
        for (int round = 0; round < Rounds; round++)
        {
            double s = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
            for (int i = 0; i < x.Count; i++)
            {
                double r = (y[i] - offset - slope * x[i]) / UnevenPx, g = weight[i] * weight[i] / (1 + (round == 0 ? 0 : r * r));
                (s, sx, sy, sxx, sxy) = (s + g, sx + g * x[i], sy + g * y[i], sxx + g * x[i] * x[i], sxy + g * x[i] * y[i]);
            }
            double determinant = s * sxx - sx * sx;
            if (determinant <= 0) return edge;
            (slope, offset) = ((s * sxy - sx * sy) / determinant, (sy * sxx - sx * sxy) / determinant);
            slopeVariance = Correlation * UnevenPx * UnevenPx * s / determinant;
        }
        // Anticlockwise in the frame along and up.
        Vector2 up = -1 * edge.Along.Perpendicular;
        (double sin, double cos) = Math.SinCos(Math.Atan(slope));
        PixelPoint middle = new(edge.Middle.X + offset * up.X, edge.Middle.Y + offset * up.Y);
        return edge with { Along = cos * edge.Along + sin * up, Middle = middle, TurnSigmaRad = Math.Sqrt(slopeVariance) };
    }

    /// <summary>How far above the fitted edge the step lies at a place along it, and its height; null outside the edge.</summary>
    private static (double UpPx, double Tones)? Step(TonePicture picture, ToeEdge edge, double alongMm)
    {
        Span<double> mean = stackalloc double[2 * ProfileReach + 1];
        mean.Clear();
        for (int k = -HalfMean; k <= HalfMean; k++)
        {
            double at = alongMm + k * edge.MmPerPx, height = edge.Height(at);
            for (int i = -ProfileReach; i <= ProfileReach; i++)
            {
                PixelPoint p = edge.At(at, height + i * ProfilePx * edge.MmPerPx);
                mean[i + ProfileReach] += picture.Sample(p.X, p.Y) / (2 * HalfMean + 1);
            }
        }
        int search = (int)(SearchPx / ProfilePx), near = (int)(CentrePx / ProfilePx), best = ProfileReach;
        for (int i = ProfileReach - search; i <= ProfileReach + search; i++)
            if (Slope(mean, i) > Slope(mean, best)) best = i;
        int from = Math.Max(1, best - near), to = Math.Min(mean.Length - 2, best + near);
        double sum = 0, moment = 0;
        for (int i = from; i <= to; i++) (sum, moment) = (sum + Slope(mean, i), moment + Slope(mean, i) * (i - ProfileReach) * ProfilePx);
        return sum <= 0 ? null : (moment / sum, Math.Abs(mean[to] - mean[from]));

        static double Slope(Span<double> tones, int i) => Math.Abs(tones[i + 1] - tones[i - 1]);
    }
}
