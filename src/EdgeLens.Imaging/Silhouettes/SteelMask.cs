using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;

namespace EdgeLens.Imaging.Silhouettes;

/// <summary>Which pixels of the window show steel: brighter than the black recess by more than its noise.</summary>
public sealed class SteelMask : IDisposable
{
    /// <summary>Least steel that can be a working end: a scaler's tip 3 mm long and 0.2 mm wide.</summary>
    public const double LeastAreaMm2 = 0.6;

    private SteelMask(Mat pixels, double groundLevel, double faceLevel)
    {
        (Pixels, GroundLevel, FaceLevel) = (pixels, groundLevel, faceLevel);
    }

    /// <summary>CV_8UC1, 255 on the largest connected piece of steel; owned.</summary>
    public Mat Pixels { get; }

    /// <summary>Linear brightness of the recess.</summary>
    public double GroundLevel { get; }

    /// <summary>Linear brightness that four fifths of the steel exceed.</summary>
    public double FaceLevel { get; }

    /// <summary>Finds the steel.</summary>
    /// <param name="grey">The photograph's luma, borrowed.</param>
    /// <param name="region">Where to look, borrowed.</param>
    /// <param name="mmPerPx">In the plane of the card.</param>
    /// <returns>The mask, owned by the caller, or the refusal <c>no-blade</c>.</returns>
    public static (SteelMask? Mask, Refusal? Refusal) Find(Mat grey, WindowRegion region, double mmPerPx)
    {
        ArgumentNullException.ThrowIfNull(grey);
        ArgumentNullException.ThrowIfNull(region);
        using Mat window = grey.SubMat(region.Bounds);
        using Mat smooth = new();
        Cv2.GaussianBlur(window, smooth, new Size(0, 0), 1.2);
        int[] histogram = Histogram(smooth, region.Mask);
        int tenth = Quantile(histogram, 0, 0.1), median = Quantile(histogram, 0, 0.5);
        // The recess is most of the window (the largest blade covers two fifths), so the lower half of the window's tones is recess and its
        // spread is noise and uneven light; 1.28 standard deviations lie between tenth and median, six keep a noisy recess out.
        int clear = median + Math.Max(6, (int)Math.Ceiling(6 * (median - tenth) / 1.28));
        int fifth = Quantile(histogram, clear, 0.2);
        double ground = LinearLight.Decode(median / 255.0), face = LinearLight.Decode(fifth / 255.0);
        // Halfway between recess and darkest fifth of the steel in exposure steps: outside the half level of any steel, inside the noise.
        double level = Math.Max(LinearLight.Decode(clear / 255.0), Math.Sqrt(ground * face));
        using Mat bright = new();
        Cv2.Threshold(smooth, bright, 255 * LinearLight.Encode(level), 255, ThresholdTypes.Binary);
        Cv2.BitwiseAnd(bright, region.Mask, bright);
        using Mat labels = new(), stats = new(), centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(bright, labels, stats, centroids);
        (int best, int area) = (0, 0);
        for (int i = 1; i < count; i++)
        {
            int a = stats.RowSpan<int>(i)[(int)ConnectedComponentsTypes.Area];
            if (a > area) (best, area) = (i, a);
        }
        double areaMm2 = area * mmPerPx * mmPerPx;
        if (areaMm2 < LeastAreaMm2)
            return (null, new Refusal("no-blade", "There is no working end in the card's window.",
                "Lay the blade into the window, face up, the shank leaving the window on one side, and take the photograph again.", areaMm2, LeastAreaMm2, "mm²"));
        Mat pixels = new();
        Cv2.Compare(labels, best, pixels, CmpTypes.EQ);
        return (new SteelMask(pixels, ground, face), null);
    }

    /// <inheritdoc />
    public void Dispose() => Pixels.Dispose();

    private static int[] Histogram(Mat picture, Mat mask)
    {
        int[] histogram = new int[256];
        int rows = picture.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<byte> tones = picture.RowSpan<byte>(y), inside = mask.RowSpan<byte>(y);
            for (int x = 0; x < tones.Length; x++) if (inside[x] != 0) histogram[tones[x]]++;
        }
        return histogram;
    }

    /// <summary>The tone below which a share of the pixels from tone <paramref name="from"/> up lies.</summary>
    private static int Quantile(int[] histogram, int from, double share)
    {
        long total = 0, sum = 0;
        for (int t = from; t < 256; t++) total += histogram[t];
        for (int t = from; t < 256; t++) if ((sum += histogram[t]) >= share * total && sum > 0) return t;
        return 255;
    }
}
