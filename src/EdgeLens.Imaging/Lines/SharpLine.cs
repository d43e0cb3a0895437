namespace EdgeLens.Imaging.Lines;

/// <summary>The outermost straight line through a strip along which a sharp step is seen plainly: a contour, not a rim of light that is mirrored farther in.</summary>
/// <param name="Line">Over the strip's stretch.</param>
/// <param name="Score">Mean over the blocks of the step over its standard deviation, each at most <see cref="Clip"/>.</param>
public sealed record SharpLine(Stretch Line, double Score)
{
    /// <summary>What one block can add: a glint must not outvote the rest of the line.</summary>
    public const double Clip = 12;

    private const int BlockPx = 6;

    // Lines seen at least half as plainly as the plainest one compete, the outermost wins.
    private const double Plain = 0.5;

    // A step of which the sharp filter sees less than this share of what the slow one sees is out of focus: an edge blurred over 3 px gives a third.
    private const double LeastOfSlow = 0.35;

    /// <summary>Tries all offsets within the strip and all turns about its middle.</summary>
    /// <param name="strip">Wide enough for offsets, turns and the filter.</param>
    /// <param name="sharp">The step sought.</param>
    /// <param name="slow">A step too blurred to count.</param>
    /// <param name="greatestTurnDeg">Either way.</param>
    /// <param name="greatestOffsetPx">Either way, at the strip's middle.</param>
    public static SharpLine Find(LineStrip strip, SharpStep sharp, SharpStep slow, double greatestTurnDeg, double greatestOffsetPx)
    {
        ArgumentNullException.ThrowIfNull(strip);
        ArgumentNullException.ThrowIfNull(sharp);
        ArgumentNullException.ThrowIfNull(slow);
        int blocks = Math.Max(2, strip.Rows / BlockPx), columns = strip.Columns;
        double[] mean = new double[columns];
        int span = 2 * (int)greatestOffsetPx + 1;
        double[] best = new double[span], slopes = new double[span];
        for (double turn = -greatestTurnDeg; turn <= greatestTurnDeg; turn += 1)
        {
            double slope = Math.Tan(turn * Math.PI / 180);
            double[] scores = new double[span];
            for (int b = 0; b < blocks; b++)
            {
                int from = b * strip.Rows / blocks, to = (b + 1) * strip.Rows / blocks;
                double spread = Mean(strip, from, to, slope, mean), deviation = Math.Sqrt(Math.Max(1, spread) / ((to - from) * sharp.Gain));
                for (int i = 0; i < span; i++)
                {
                    int at = strip.InwardPx - (int)greatestOffsetPx + i;
                    if (at < slow.HalfWidth || at >= columns - slow.HalfWidth) continue;
                    double step = Math.Abs(sharp.Height(mean, at));
                    if (step < LeastOfSlow * Math.Abs(slow.Height(mean, at))) continue;
                    scores[i] += Math.Min(Clip, step / deviation) / blocks;
                }
            }
            for (int i = 0; i < span; i++) if (scores[i] > best[i]) (best[i], slopes[i]) = (scores[i], slope);
        }
        int outermost = span - 1;
        double plain = Plain * best.Max();
        while (outermost > 0 && !(best[outermost] >= plain && best[outermost] >= best[outermost - 1])) outermost--;
        return new(strip.Stretch.Moved(outermost - (int)greatestOffsetPx, slopes[outermost]), best[outermost]);
    }

    /// <summary>Mean of rows sheared by a slope about the strip's middle; returns the mean variance within columns.</summary>
    private static double Mean(LineStrip strip, int from, int to, double slope, double[] mean)
    {
        int columns = strip.Columns, n = to - from;
        double[] squares = new double[columns];
        Array.Clear(mean);
        for (int t = from; t < to; t++)
        {
            double shift = slope * (t - strip.Stretch.LengthPx / 2);
            int whole = (int)Math.Floor(shift);
            double part = shift - whole;
            ReadOnlySpan<double> row = strip.Row(t);
            for (int k = 0; k < columns; k++)
            {
                double v = (1 - part) * row[Math.Clamp(k + whole, 0, columns - 1)] + part * row[Math.Clamp(k + whole + 1, 0, columns - 1)];
                mean[k] += v / n;
                squares[k] += v * v / n;
            }
        }
        double variance = 0;
        for (int k = 0; k < columns; k++) variance += Math.Max(0, squares[k] - mean[k] * mean[k]) / columns;
        return variance;
    }
}
