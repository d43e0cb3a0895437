using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Imaging.Silhouettes;
using OpenCvSharp;

namespace EdgeLens.Measuring.ToeView;

/// <summary>The terminal shank before the black window: its axis in the picture and where its neck widens to the heel.</summary>
/// <param name="Top">On the axis, upper end of what was used.</param>
/// <param name="Bottom">On the axis, lower end of what was used.</param>
/// <param name="Neck">On the axis, where the shank widens or leaves its axis.</param>
/// <param name="BladeEndYPx">Lowest row of steel where the blade ends before the window; null where it reaches the window's lower rim.</param>
internal sealed record TerminalShank(PixelPoint Top, PixelPoint Bottom, PixelPoint Neck, double? BladeEndYPx)
{
    /// <summary>
    /// What the midline of a tapered, unevenly lit and defocused shank may lie off its axis: the half levels of its two sides are pulled by the
    /// light on the round sides by up to a tenth of their blur (1 px) over some 800 px, and rows out of focus by more. Measured on rendered photographs.
    /// </summary>
    public const double AxisSigmaDeg = 0.15;

    /// <summary>Least length that is followed, of the 10 mm that a window shows: over less, a pixel's pull on one side turns the axis by more than a tenth of a degree.</summary>
    public const double LeastLengthMm = 2.5;

    private const double SmoothPx = 4;
    private const int ProfileHalf = 25;
    private const double TolerancePx = 2.5;

    /// <summary>Finds it.</summary>
    /// <param name="grey">CV_8UC1, borrowed.</param>
    /// <param name="region">Borrowed.</param>
    /// <param name="mmPerPx">At the blade.</param>
    /// <returns>The shank, or the refusal <c>no-shank</c>.</returns>
    public static Outcome<TerminalShank> Find(Mat grey, WindowRegion region, double mmPerPx)
    {
        using Mat window = grey.SubMat(region.Bounds);
        using Mat smooth = new();
        Cv2.GaussianBlur(window, smooth, new Size(0, 0), SmoothPx);
        (double ground, double scatter) = Ground(smooth, region.Mask);
        using Mat bright = new();
        Cv2.Threshold(smooth, bright, ground + Math.Max(8, 8 * scatter), 255, ThresholdTypes.Binary);
        Cv2.BitwiseAnd(bright, region.Mask, bright);
        using Mat labels = new(), stats = new(), centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(bright, labels, stats, centroids);
        (int best, int height, int top) = (0, 0, 0);
        for (int i = 1; i < count; i++)
        {
            ReadOnlySpan<int> s = stats.RowSpan<int>(i);
            bool fromTop = s[(int)ConnectedComponentsTypes.Top] < 0.15 * region.Bounds.Height;
            if (fromTop && s[(int)ConnectedComponentsTypes.Height] > height)
                (best, height, top) = (i, s[(int)ConnectedComponentsTypes.Height], s[(int)ConnectedComponentsTypes.Top]);
        }
        if (height * mmPerPx < LeastLengthMm) return NoShank(height * mmPerPx);
        List<Row> rows = Rows(smooth, labels, region.Mask, best, top, height);
        double[] y = [.. rows.Select(r => (double)r.Y)], middle = [.. rows.Select(r => (r.Left + r.Right) / 2)], width = [.. rows.Select(r => r.Right - r.Left)];
        if (rows.Count < 30 || ConsensusLine.Through(y, middle, TolerancePx, (y[^1] - y[0]) / 5) is not { } axis) return NoShank(0);
        double first = y[axis.Inliers[0]], last = y[axis.Inliers[^1]];
        if ((last - first) * mmPerPx < LeastLengthMm) return NoShank((last - first) * mmPerPx);
        double neck = NeckRow(y, middle, width, axis, mmPerPx);
        int end = (int)y[^1], column = (int)axis.At(end);
        bool endsInWindow = end + 0.25 / mmPerPx < region.Mask.Rows && region.Mask.RowSpan<byte>((int)(end + 0.25 / mmPerPx))[Math.Clamp(column, 0, region.Mask.Cols - 1)] != 0;
        PixelPoint At(double row) => new(axis.At(row) + region.Bounds.Left, row + region.Bounds.Top);
        return new TerminalShank(At(first), At(last), At(neck), endsInWindow ? end + region.Bounds.Top : null);
    }

    private static Refusal NoShank(double lengthMm) => new("no-shank", "The terminal shank cannot be followed before the card's black window.",
        "Stand the card upright behind the instrument, terminal shank upright before the window, toe towards the camera, and take the photograph again.",
        lengthMm, LeastLengthMm, "mm of shank");

    private static (double Ground, double Scatter) Ground(Mat picture, Mat mask)
    {
        int[] histogram = new int[256];
        int rows = picture.Rows, total = 0;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<byte> tones = picture.RowSpan<byte>(y), inside = mask.RowSpan<byte>(y);
            for (int x = 0; x < tones.Length; x++) if (inside[x] != 0) (histogram[tones[x]], total) = (histogram[tones[x]] + 1, total + 1);
        }
        // Most of the window is recess: median and lower tenth are its own, 1.28 standard deviations apart.
        int median = Quantile(0.5), tenth = Quantile(0.1);
        return (median, (median - tenth) / 1.28);

        int Quantile(double share)
        {
            long sum = 0;
            for (int t = 0; t < 256; t++) if ((sum += histogram[t]) >= share * total) return t;
            return 255;
        }
    }

    /// <summary>Where each row crosses half the light between ground and the steel just inside, on both sides.</summary>
    private static List<Row> Rows(Mat smooth, Mat labels, Mat mask, int label, int top, int height)
    {
        List<Row> rows = [];
        double[] light = new double[smooth.Cols];
        for (int y = top + 5; y < top + height - 2; y++)
        {
            ReadOnlySpan<int> own = labels.RowSpan<int>(y);
            int left = own.IndexOf(label), right = own.LastIndexOf(label);
            ReadOnlySpan<byte> inside = mask.RowSpan<byte>(y), tones = smooth.RowSpan<byte>(y);
            // Steel that meets the window's rim has no side there.
            if (right - left < 20 || left < 3 || right > own.Length - 4 || inside[left - 3] == 0 || inside[right + 3] == 0) continue;
            for (int x = Math.Max(0, left - ProfileHalf - 1); x <= Math.Min(own.Length - 1, right + ProfileHalf + 1); x++) light[x] = LinearLight.OfTone[tones[x]];
            rows.Add(new(y, HalfLevel(light, left, 1), HalfLevel(light, right, -1)));
        }
        return rows;
    }

    private static double HalfLevel(double[] light, int edge, int inward)
    {
        double[] p = new double[2 * ProfileHalf + 1];
        for (int i = 0; i < p.Length; i++) p[i] = light[Math.Clamp(edge + inward * (i - ProfileHalf), 0, light.Length - 1)];
        double outer = p[..8].Average();
        int steepest = 8;
        for (int i = 8; i < p.Length - 8; i++) if (Math.Abs(p[i + 1] - p[i - 1]) > Math.Abs(p[steepest + 1] - p[steepest - 1])) steepest = i;
        double half = (outer + p[Math.Min(p.Length - 1, steepest + 10)]) / 2;
        for (int i = 0; i < p.Length - 1; i++)
            if (p[i] < half && p[i + 1] >= half) return edge + inward * (i - ProfileHalf + (half - p[i]) / (p[i + 1] - p[i]));
        return double.NaN;
    }

    /// <summary>
    /// Last row, from below, above which the shank is still its regular self: on its axis, and as wide as its taper says, in 24 of 30 rows.
    /// Sought from below, because farther up defocus and glints make single stretches look wider.
    /// </summary>
    private static double NeckRow(double[] y, double[] middle, double[] width, ConsensusLine axis, double mmPerPx)
    {
        // Over 15 rows: single rows jump where noise or a glint takes the half level.
        (middle, width) = (RobustSmoother.RunningMedian(middle, 7), RobustSmoother.RunningMedian(width, 7));
        double wider = 0.035 / mmPerPx, off = 0.06 / mmPerPx;
        if (ConsensusLine.Through(y, width, wider, (y[^1] - y[0]) / 4) is not { } taper) return y[^1];
        bool[] regular = [.. Enumerable.Range(0, y.Length).Select(i => Math.Abs(width[i] - taper.At(y[i])) < wider && Math.Abs(middle[i] - axis.At(y[i])) < off)];
        for (int i = y.Length - 1; i >= 30; i--)
            if (regular[i] && regular.AsSpan(i - 30, 30).Count(true) >= 24) return y[i];
        return y[^1];
    }

    private readonly record struct Row(int Y, double Left, double Right);
}
