using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;

namespace EdgeLens.Imaging.Silhouettes;

/// <summary>Which pixels of the window show steel: brighter than the black recess by more than its noise.</summary>
public sealed class SteelMask : IDisposable
{
    /// <summary>Least steel that can be a working end: a scaler's tip 3 mm long and 0.2 mm wide.</summary>
    public const double LeastAreaMm2 = 0.6;

    // Smaller pieces are sparks on a dark neck, or noise.
    private const double LeastPieceMm2 = 0.25;

    // Recess and steel are at least this many tones apart, or nothing can be measured.
    private const int LeastStepTones = 5;

    private SteelMask(Mat pixels, int thresholdTone, double groundLevel, double faceLevel)
    {
        (Pixels, ThresholdTone, GroundLevel, FaceLevel) = (pixels, thresholdTone, groundLevel, faceLevel);
    }

    /// <summary>CV_8UC1, 255 on every large piece of steel: the blade, and the shank where a dark neck parts them; owned.</summary>
    public Mat Pixels { get; }

    /// <summary>Tone that parts recess and steel.</summary>
    public int ThresholdTone { get; }

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
        int median = Quantile(histogram, 0, 0.5);
        // The recess is most of the window (the largest blade covers two fifths): its median is recess, and steel is what lies a good way above.
        int fifth = Quantile(histogram, 2 * median + LeastStepTones, 0.2);
        double ground = LinearLight.Decode(median / 255.0), face = LinearLight.Decode(fifth / 255.0);
        int threshold = Valley(histogram, median + LeastStepTones, fifth);
        using Mat bright = new();
        Cv2.Threshold(smooth, bright, threshold, 255, ThresholdTypes.Binary);
        Cv2.BitwiseAnd(bright, region.Mask, bright);
        Mat pixels = new(bright.Size(), MatType.CV_8UC1, Scalar.Black);
        double areaMm2 = LargePieces(bright, LeastPieceMm2 / (mmPerPx * mmPerPx), pixels) * mmPerPx * mmPerPx;
        if (areaMm2 >= LeastAreaMm2) return (new SteelMask(pixels, threshold, ground, face), null);
        pixels.Dispose();
        return (null, new Refusal("no-blade", "There is no working end in the card's window.",
            "Lay the blade into the window, face up, the shank leaving the window on one side, and take the photograph again.", areaMm2, LeastAreaMm2, "mm²"));
    }

    /// <inheritdoc />
    public void Dispose() => Pixels.Dispose();

    /// <summary>
    /// The emptiest tone between recess and steel: only blurred borders have it. A fixed share of the step would cut off steel that mirrors a dark
    /// part of the room, or join a recess that the light reaches unevenly.
    /// </summary>
    private static int Valley(int[] histogram, int from, int to)
    {
        int best = from;
        long least = long.MaxValue;
        for (int t = from; t <= Math.Max(from, to); t++)
        {
            long count = 0;
            for (int k = Math.Max(0, t - 2); k <= Math.Min(255, t + 2); k++) count += histogram[k];
            if (count < least) (best, least) = (t, count);
        }
        return best;
    }

    /// <summary>Copies the pieces of at least the given area; returns their pixels in all.</summary>
    private static int LargePieces(Mat bright, double leastPx, Mat pixels)
    {
        using Mat labels = new(), stats = new(), centroids = new(), piece = new();
        int count = Cv2.ConnectedComponentsWithStats(bright, labels, stats, centroids), sum = 0;
        for (int i = 1; i < count; i++)
        {
            int area = stats.RowSpan<int>(i)[(int)ConnectedComponentsTypes.Area];
            if (area < leastPx) continue;
            sum += area;
            Cv2.Compare(labels, i, piece, CmpTypes.EQ);
            Cv2.BitwiseOr(pixels, piece, pixels);
        }
        return sum;
    }

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
