using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;

namespace EdgeLens.Measuring.ToeView;

/// <summary>Sets the fitted edge of the toe on the step of light in the picture: place and direction of the face line, the form of the edge kept.</summary>
/// <remarks>
/// The form comes from the whole followed path, which at its ends may run on along other borders. Between the corners the place of the step is measured anew, square to
/// the edge; where bright steel turns to dark, the step vanishes and its place is noise: each place counts by its uncertainty. A straight line through what is left over, with bounded influence, turns and moves the edge.
/// </remarks>
internal static class FaceLine
{
    private const double SearchPx = 3, ReachPx = 5.5, SamplePx = 0.5, GridPx = 0.25;
    private const double ColumnPx = 2;
    private const int HalfMean = 2;

    // Blur of lens and pixels at the toe, which is in focus.
    private const double BlurPx = 1.1;

    // Within this share of the half width the U is flat enough for its form's error to move it by less than a fifth of a pixel.
    private const double Share = 0.9;

    // The edge's own unevenness, a third of a pixel (measured on rendered edges).
    private const double UnevenPx = 0.35;
    private const int Rounds = 10;

    // A place no surer than the range that it was sought in says nothing.
    private const double LeastSurePx = SearchPx / 2;

    // Neighbouring places share their columns and the same unevenness of the edge.
    private const double Correlation = 4;

    // Samples half a pixel apart, blurred by lens and mean: one in four is its own.
    private const double OwnSamples = 0.25;

    private static readonly int Samples = 2 * (int)(ReachPx / SamplePx) + 1, Places = 2 * (int)(SearchPx / GridPx) + 1;
    private static readonly double[][,] Steps = [.. Enumerable.Range(0, Places).Select(k => StepAt((k - Places / 2) * GridPx))];

    /// <summary>The edge set on its step; as it was where the step is too faint.</summary>
    public static ToeEdge Refine(TonePicture picture, ToeEdge edge)
    {
        double w = edge.HalfWidthMm.Value;
        List<double> x = [], y = [], variance = [];
        for (double along = -Share * w; along <= Share * w; along += ColumnPx * edge.MmPerPx)
            if (Step(picture, edge, along) is { } step && step.SigmaPx < LeastSurePx)
            {
                x.Add(along / edge.MmPerPx);
                y.Add(step.UpPx);
                variance.Add(step.SigmaPx * step.SigmaPx + UnevenPx * UnevenPx);
            }
        if (x.Count < 12) return edge;
        double offset = 0, slope = 0, slopeVariance = 0;
        for (int round = 0; round < Rounds; round++)
        {
            // The path's own direction counts too, once: Correlation is taken out of all at the end.
            double s = 0, sx = 0, sy = 0, sxx = Correlation / (edge.TurnSigmaRad * edge.TurnSigmaRad), sxy = 0;
            for (int i = 0; i < x.Count; i++)
            {
                double r = y[i] - offset - slope * x[i], g = 1 / (variance[i] + r * r);
                (s, sx, sy, sxx, sxy) = (s + g, sx + g * x[i], sy + g * y[i], sxx + g * x[i] * x[i], sxy + g * x[i] * y[i]);
            }
            double determinant = s * sxx - sx * sx;
            if (determinant <= 0) return edge;
            (slope, offset) = ((s * sxy - sx * sy) / determinant, (sy * sxx - sx * sxy) / determinant);
            slopeVariance = Correlation * s / determinant;
        }
        // Anticlockwise in the frame along and up.
        Vector2 up = -1 * edge.Along.Perpendicular;
        (double sin, double cos) = Math.SinCos(Math.Atan(slope));
        PixelPoint middle = new(edge.Middle.X + offset * up.X, edge.Middle.Y + offset * up.Y);
        return edge with { Along = cos * edge.Along + sin * up, Middle = middle, TurnSigmaRad = Quadrature.Sum(Math.Sqrt(slopeVariance), edge.ViewY * edge.MiddleSigmaMm / w) };
    }

    /// <summary>
    /// How far above the fitted edge the step lies at a place along it: where a blurred step, with a free level and slope on each side, leaves least over. Null outside
    /// the edge, and where it would lie at the end of the range.
    /// </summary>
    private static (double UpPx, double SigmaPx)? Step(TonePicture picture, ToeEdge edge, double alongMm)
    {
        Span<double> mean = stackalloc double[Samples];
        mean.Clear();
        for (int k = -HalfMean; k <= HalfMean; k++)
        {
            double at = alongMm + k * edge.MmPerPx, height = edge.Height(at);
            for (int i = 0; i < Samples; i++)
            {
                PixelPoint p = edge.At(at, height + (i - Samples / 2) * SamplePx * edge.MmPerPx);
                mean[i] += picture.Sample(p.X, p.Y) / (2 * HalfMean + 1);
            }
        }
        double squares = 0;
        foreach (double v in mean) squares += v * v;
        Span<double> left = stackalloc double[Places];
        int best = 0;
        for (int k = 0; k < Places; k++)
        {
            left[k] = squares;
            for (int b = 0; b < 4; b++)
            {
                double along = 0;
                for (int i = 0; i < Samples; i++) along += Steps[k][b, i] * mean[i];
                left[k] -= along * along;
            }
            if (left[k] < left[best]) best = k;
        }
        if (best == 0 || best == Places - 1) return null;
        double curvature = (left[best - 1] - 2 * left[best] + left[best + 1]) / (GridPx * GridPx), turn = (left[best + 1] - left[best - 1]) / (2 * GridPx);
        if (curvature <= 0) return null;
        // Squares left over, per own sample, are the noise; where the sum of squares over it grows by one lies one standard deviation.
        double noise = Math.Max(left[best], 0) / (Samples * OwnSamples - 4);
        return ((best - Places / 2) * GridPx - turn / curvature, Math.Sqrt(2 * noise / (OwnSamples * curvature)));
    }

    /// <summary>Level, slope, and both once more above a blurred step at a place, made square to each other and of length 1.</summary>
    private static double[,] StepAt(double placePx)
    {
        double[,] basis = new double[4, Samples];
        for (int i = 0; i < Samples; i++)
        {
            double z = (i - Samples / 2) * SamplePx, above = GaussianStep.At((z - placePx) / BlurPx);
            (basis[0, i], basis[1, i], basis[2, i], basis[3, i]) = (1, z, above, above * (z - placePx));
        }
        for (int b = 0; b < 4; b++)
        {
            for (int a = 0; a < b; a++)
            {
                double with = Dot(a, b);
                for (int i = 0; i < Samples; i++) basis[b, i] -= with * basis[a, i];
            }
            double length = Math.Sqrt(Dot(b, b));
            for (int i = 0; i < Samples; i++) basis[b, i] /= length;
        }
        return basis;

        double Dot(int a, int b) => Enumerable.Range(0, Samples).Sum(i => basis[a, i] * basis[b, i]);
    }
}
