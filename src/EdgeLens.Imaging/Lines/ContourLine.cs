using EdgeLens.Geometry.Fitting;

namespace EdgeLens.Imaging.Lines;

/// <summary>
/// The outermost line at which a strip departs from its ground, however faint: where the steel's contour is, though the steel there may mirror
/// the ground and be hardly brighter, or darker.
/// </summary>
/// <param name="Line">The line over the strip's stretch.</param>
/// <param name="InlierShare">Share of the places along the stretch where the departure lies on the line: how straight and how visible it is.</param>
/// <param name="GroundTone">Tone of the ground.</param>
/// <remarks>
/// A fixed threshold on brightness finds the inner rim of the dark band that a grazing surface shows and takes it for the contour (several degrees
/// off): here tones are averaged along the line over <see cref="HalfWindow"/> places to either side and held against the ground's own scatter.
/// </remarks>
public sealed record ContourLine(Stretch Line, double InlierShare, double GroundTone)
{
    /// <summary>Places averaged to either side; a line that turns by 10° against the strip smears by 1 px over them.</summary>
    public const int HalfWindow = 7;

    // A departure counts from 4.5 standard deviations of the averaged ground (one false in 10⁵ samples), and not below 0.8 tones: JPEG.
    private const double Deviations = 4.5;
    private const double LeastTone = 0.8;

    // Samples in a row that must depart.
    private const int Run = 3;
    private const double TolerancePx = 1.5;

    /// <summary>Finds the line.</summary>
    /// <param name="strip">Its outer <paramref name="groundPx"/> columns show ground only.</param>
    /// <param name="groundPx">Columns that tell the ground.</param>
    /// <param name="skipPx">Places at the stretch's start that don't count (the tip's rounding).</param>
    /// <param name="greatestSlope">Of the line against the strip.</param>
    /// <returns>Null where nothing straight departs.</returns>
    public static ContourLine? Find(LineStrip strip, int groundPx, double skipPx, double greatestSlope)
    {
        ArgumentNullException.ThrowIfNull(strip);
        int rows = strip.Rows;
        (double[] y, double median) = Departures(strip, groundPx, HalfWindow);
        double[] x = [.. Enumerable.Range(0, rows)];
        int judged = 0;
        for (int t = 0; t < rows; t++)
        {
            if (t < skipPx) y[t] = double.NaN;
            else judged++;
        }
        if (ConsensusLine.Through(x, y, TolerancePx, rows / 5.0, greatestSlope) is not { } line) return null;
        // The first sample that departs lies about a blur outside of the contour.
        double middle = strip.Stretch.LengthPx / 2;
        return new(strip.Stretch.Moved(line.At(middle) - 1, line.Slope), line.Inliers.Length / (double)Math.Max(1, judged), median);
    }

    /// <summary>Where each place along a strip departs from the ground, coming from outside: pixels outwards of the strip's line, about a blur too far out; not a number where nothing departs.</summary>
    /// <param name="strip">Its outer <paramref name="groundPx"/> columns show ground only.</param>
    /// <param name="groundPx">Columns that tell the ground.</param>
    /// <param name="halfWindow">Places averaged to either side.</param>
    /// <returns>The places, and the ground's tone.</returns>
    public static (double[] OutwardPx, double GroundTone) Departures(LineStrip strip, int groundPx, int halfWindow)
    {
        ArgumentNullException.ThrowIfNull(strip);
        double[] smooth = strip.Smoothed(halfWindow);
        int columns = strip.Columns, rows = strip.Rows;
        List<double> ground = [];
        for (int t = 0; t < rows; t++)
            for (int k = columns - groundPx; k < columns; k++) ground.Add(Pair(t, k));
        double median = Median(ground), scatter = 1.4826 * Median([.. ground.Select(v => Math.Abs(v - median))]);
        double limit = Math.Max(LeastTone, Deviations * scatter);
        double[] y = new double[rows];
        Array.Fill(y, double.NaN);
        for (int t = 0; t < rows; t++)
        {
            for (int k = columns - 1, run = 0; k >= 1; k--)
            {
                run = Math.Abs(Pair(t, k) - median) > limit ? run + 1 : 0;
                if (run < Run) continue;
                y[t] = k + Run - 1 - strip.InwardPx;
                break;
            }
        }
        return (y, median);

        double Pair(int t, int k) => (smooth[t * columns + k] + smooth[t * columns + k - 1]) / 2;
    }

    private static double Median(List<double> values)
    {
        double[] sorted = [.. values];
        Array.Sort(sorted);
        return sorted[sorted.Length / 2];
    }
}
