using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Imaging.Silhouettes;
using OpenCvSharp;

namespace EdgeLens.Measuring.RoundGauge;

/// <summary>Where the two edges of a dark rod over white paper run in the picture, to about a pixel.</summary>
/// <param name="First">Ends of one edge.</param>
/// <param name="Second">Ends of the other.</param>
/// <param name="Middle">Inside the rod.</param>
internal sealed record RodSides((PixelPoint From, PixelPoint To) First, (PixelPoint From, PixelPoint To) Second, PixelPoint Middle)
{
    // Points of a straight edge lie within this of it: staircase and the lens's bend over the window.
    private const double TolerancePx = 2.5;

    // Near the window's rim the rod's edges run over the cut: left out.
    private const double EndShare = 0.06;

    private static readonly Refusal NotDark = new("rod-not-dark", "There is no dark rod over white paper in the card's window.",
        "Blacken the needle or pin with a marker pen, lay white paper under the window, lay the rod across it and take the photograph again.");

    /// <summary>Finds them.</summary>
    /// <param name="grey">The photograph's luma, borrowed.</param>
    /// <param name="region">Of the window, borrowed.</param>
    /// <param name="greatestShare">The rod's linear brightness over the paper's, at most.</param>
    public static Outcome<RodSides> Find(Mat grey, WindowRegion region, double greatestShare)
    {
        using Mat window = grey.SubMat(region.Bounds), smooth = new(), dark = new();
        Cv2.GaussianBlur(window, smooth, new Size(0, 0), 1.5);
        (int paper, int rod) = Levels(smooth, region.Mask);
        double paperLight = LinearLight.Decode(paper / 255.0), rodLight = LinearLight.Decode(rod / 255.0);
        if (rodLight > greatestShare * paperLight || paper < 40) return NotDark;
        int threshold = (int)(255 * LinearLight.Encode((paperLight + rodLight) / 2));
        Cv2.Threshold(smooth, dark, threshold, 255, ThresholdTypes.BinaryInv);
        Cv2.BitwiseAnd(dark, region.Mask, dark);
        Moments m = Cv2.Moments(dark, true);
        if (!(m.M00 > 0)) return NotDark;
        // Direction of the dark pixels' longest spread.
        double angle = 0.5 * Math.Atan2(2 * m.Mu11, m.Mu20 - m.Mu02);
        Vector2 along = new(Math.Cos(angle), Math.Sin(angle)), across = along.Perpendicular, centre = new(m.M10 / m.M00, m.M01 / m.M00);
        List<double> places = [], low = [], high = [];
        int reach = (int)Math.Sqrt(window.Cols * (double)window.Cols + window.Rows * (double)window.Rows) / 2;
        for (int s = -reach; s <= reach; s += 3)
            if (Across(dark, centre + (double)s * along, across) is { } span)
            {
                places.Add(s);
                low.Add(span.Low);
                high.Add(span.High);
            }
        if (places.Count < 40) return NotDark;
        double length = places[^1] - places[0];
        if (ConsensusLine.Through([.. places], [.. low], TolerancePx, length / 3) is not { } a || ConsensusLine.Through([.. places], [.. high], TolerancePx, length / 3) is not { } b
            || a.Inliers.Length < 0.6 * places.Count || b.Inliers.Length < 0.6 * places.Count) return NotDark;
        double from = places[0] + EndShare * length, to = places[^1] - EndShare * length;
        return new RodSides((At(from, a.At(from)), At(to, a.At(to))), (At(from, b.At(from)), At(to, b.At(to))), At((from + to) / 2, (a.At((from + to) / 2) + b.At((from + to) / 2)) / 2));

        PixelPoint At(double s, double t) => new(region.Bounds.X + centre.X + s * along.X + t * across.X, region.Bounds.Y + centre.Y + s * along.Y + t * across.Y);
    }

    /// <summary>First and last dark pixel from the middle outwards, both with light beyond them; null where the middle is not dark or an edge leaves the window.</summary>
    private static (double Low, double High)? Across(Mat dark, Vector2 middle, Vector2 across)
    {
        if (!IsDark(0)) return null;
        int low = 0, high = 0;
        while (IsDark(low - 1)) low--;
        while (IsDark(high + 1)) high++;
        return IsInside(low - 3) && IsInside(high + 3) ? (low - 0.5, high + 0.5) : null;

        bool IsInside(int t) => (int)Math.Round(middle.X + t * across.X) is var x && (int)Math.Round(middle.Y + t * across.Y) is var y && x >= 0 && y >= 0 && x < dark.Cols && y < dark.Rows;

        bool IsDark(int t) => IsInside(t) && dark.RowSpan<byte>((int)Math.Round(middle.Y + t * across.Y))[(int)Math.Round(middle.X + t * across.X)] != 0;
    }

    /// <summary>Tones of paper (the brighter half's middle) and rod (the darkest twentieth's middle: a thin needle covers no more of the window).</summary>
    private static (int Paper, int Rod) Levels(Mat smooth, Mat mask)
    {
        int[] histogram = new int[256];
        int rows = smooth.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<byte> tones = smooth.RowSpan<byte>(y), inside = mask.RowSpan<byte>(y);
            for (int x = 0; x < tones.Length; x++) if (inside[x] != 0) histogram[tones[x]]++;
        }
        return (Quantile(0.7), Quantile(0.02));

        int Quantile(double share)
        {
            long total = histogram.Sum(n => (long)n), sum = 0;
            for (int t = 0; t < 256; t++) if ((sum += histogram[t]) >= share * total) return t;
            return 255;
        }
    }
}
