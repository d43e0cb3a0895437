using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using OpenCvSharp;

namespace EdgeLens.Imaging.Silhouettes;

/// <summary>Finds the U of the working end in the window: which end is free, and how far back the blade's sides can be followed.</summary>
public static class SilhouetteFinder
{
    // The steel's outline counts as meeting the window's border within this many pixels.
    private const int BorderPx = 4;

    // Tangents are taken over this many pixels to either side: longer than the contour's staircase, shorter than a scaler's tip.
    private const int TangentPx = 6;

    // Where the outline faces backwards by more than 53° (cosine to the axis) it runs round the heel and no longer along a side;
    // the back of a winged elevator's wing faces backwards by about 40°.
    private const double BackwardCosine = 0.8;

    private static readonly Refusal CutOff = new("cut-off", "The working end reaches out of the window or the picture.",
        "Move the blade so that its tip lies well inside the window and only the shank leaves it, and take the photograph again.");

    /// <summary>Finds the silhouette.</summary>
    /// <param name="grey">The photograph's luma, borrowed.</param>
    /// <param name="region">Where to look, borrowed.</param>
    /// <param name="mmPerPx">In the plane of the card.</param>
    public static Outcome<CoarseSilhouette> Find(Mat grey, WindowRegion region, double mmPerPx)
    {
        (SteelMask? steel, Refusal? refusal) = SteelMask.Find(grey, region, mmPerPx);
        if (steel is null) return refusal!;
        using (steel)
        {
            Cv2.FindContours(steel.Pixels, out Point[][] contours, out _, RetrievalModes.External, ContourApproximationModes.ApproxNone);
            bool[][] atBorder = [.. contours.Select(c => AtBorder(c, region.Mask))];
            Point[] touching = [.. contours.SelectMany((c, k) => c.Where((_, i) => atBorder[k][i]))];
            if (HeelSide(contours.MaxBy(c => c.Length)!, touching, grey, region, steel.ThresholdTone) is not { } heel) return CutOff;
            // The blade is the piece that reaches farthest from where the shank leaves the window.
            int blade = Enumerable.Range(0, contours.Length).MaxBy(k => contours[k].Max(p => Distance(p, heel)));
            Point[] contour = contours[blade];
            int apex = Farthest(contour, heel);
            if (atBorder[blade][apex]) return CutOff;
            (int back, int ahead) = Level(contour, apex, Sides(contour, atBorder[blade], apex, mmPerPx));
            ImmutableArray<PixelPoint>.Builder points = ImmutableArray.CreateBuilder<PixelPoint>();
            for (int i = -back; i <= ahead; i++)
            {
                Point p = contour[Wrap(apex + i, contour.Length)];
                points.Add(new(p.X + region.Bounds.X, p.Y + region.Bounds.Y));
            }
            if (back < 4 * TangentPx || ahead < 4 * TangentPx) return CutOff;
            return new CoarseSilhouette(points.ToImmutable(), back, steel.GroundLevel, steel.FaceLevel);
        }
    }

    private static int Wrap(int i, int n) => ((i % n) + n) % n;

    private static bool[] AtBorder(Point[] contour, Mat mask)
    {
        using Mat inner = new(), kernel = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(2 * BorderPx + 1, 2 * BorderPx + 1));
        // A border of black around the mask makes the picture's own rim count as border too.
        Cv2.Erode(mask, inner, kernel, borderType: BorderTypes.Constant, borderValue: Scalar.Black);
        bool[] at = new bool[contour.Length];
        for (int i = 0; i < contour.Length; i++) at[i] = inner.RowSpan<byte>(contour[i].Y)[contour[i].X] == 0;
        return at;
    }

    /// <summary>
    /// Middle of where the steel leaves the window. Where a dark neck parts the blade from its shank nothing leaves it: then the end of the
    /// blade that has more light beyond it, up to the border, is the shank's. Null when the steel leaves on two sides.
    /// </summary>
    private static Point2d? HeelSide(Point[] contour, Point[] touching, Mat grey, WindowRegion region, int glintTone)
    {
        if (touching.Length > 0)
        {
            Point2d middle = new(touching.Average(p => p.X), touching.Average(p => p.Y));
            // A shank is at most half as wide as the window is long; steel that meets the border farther apart leaves on two sides.
            double spread = touching.Max(p => Distance(p, middle));
            return spread < 0.35 * region.Bounds.Width ? middle : null;
        }
        RotatedRect box = Cv2.MinAreaRect(contour);
        double angle = (box.Size.Width >= box.Size.Height ? box.Angle : box.Angle + 90) * Math.PI / 180;
        (double sin, double cos) = Math.SinCos(angle);
        double half = Math.Max(box.Size.Width, box.Size.Height) / 2;
        long plus = LightBeyond(1), minus = LightBeyond(-1);
        int side = plus > minus ? 1 : -1;
        return new Point2d(box.Center.X + side * 2 * half * cos, box.Center.Y + side * 2 * half * sin);

        // Steel's glints beyond an end, anywhere across the window: a shank may leave the blade's axis by some 30°.
        long LightBeyond(int sign)
        {
            long sum = 0;
            for (int y = 0; y < region.Bounds.Height; y++)
            {
                ReadOnlySpan<byte> tones = grey.RowSpan<byte>(region.Bounds.Y + y).Slice(region.Bounds.X, region.Bounds.Width), inside = region.Mask.RowSpan<byte>(y);
                for (int x = 0; x < tones.Length; x++)
                    if (inside[x] != 0 && tones[x] > glintTone && sign * ((x - box.Center.X) * cos + (y - box.Center.Y) * sin) > half + BorderPx) sum++;
            }
            return sum;
        }
    }

    /// <summary>Shortens the longer side: behind the place where one side ends the other one, perhaps a glint on the neck, is no side of the blade.</summary>
    private static (int Back, int Ahead) Level(Point[] contour, int apex, (int Back, int Ahead) sides)
    {
        Point tip = contour[apex], a = contour[Wrap(apex - sides.Back, contour.Length)], b = contour[Wrap(apex + sides.Ahead, contour.Length)];
        Vector2 axis = new Vector2(tip.X - (a.X + b.X) / 2.0, tip.Y - (a.Y + b.Y) / 2.0).Unit;
        double end = Math.Max(Along(a), Along(b));
        return (Shorten(-1, sides.Back), Shorten(1, sides.Ahead));

        double Along(Point p) => p.X * axis.X + p.Y * axis.Y;

        int Shorten(int step, int length)
        {
            while (length > 1 && Along(contour[Wrap(apex + step * length, contour.Length)]) < end) length--;
            return length;
        }
    }

    private static double Distance(Point a, Point2d b) => Math.Sqrt((a.X - b.X) * (a.X - b.X) + (a.Y - b.Y) * (a.Y - b.Y));

    private static int Farthest(Point[] contour, Point2d from)
    {
        int best = 0;
        for (int i = 1; i < contour.Length; i++) if (Distance(contour[i], from) > Distance(contour[best], from)) best = i;
        return best;
    }

    /// <summary>How many contour points to either side of the apex belong to the blade's sides.</summary>
    private static (int Back, int Ahead) Sides(Point[] contour, bool[] atBorder, int apex, double mmPerPx)
    {
        int n = contour.Length, near = Math.Min(n / 4, (int)(2.5 / mmPerPx));
        Vector2 tip = At(apex), a = At(apex - near), b = At(apex + near);
        Vector2 axis = (tip - 0.5 * (a + b)).Unit;
        // Contours run one way round: the side on which the steel lies is the same for both walks.
        double turn = Math.Sign((b - a).Perpendicular.Dot(axis));
        return (Walk(-1), Walk(1));

        Vector2 At(int i)
        {
            Point p = contour[Wrap(i, n)];
            return new(p.X, p.Y);
        }

        int Walk(int step)
        {
            int backwards = 0, i = 1;
            for (; i < n / 2 && !atBorder[Wrap(apex + step * i, n)]; i++)
            {
                Vector2 along = At(apex + step * i + TangentPx) - At(apex + step * i - TangentPx);
                // A spike of one pixel's width runs out and back: it has no direction.
                if (along.Length < TangentPx) continue;
                Vector2 outward = turn * along.Unit.Perpendicular;
                backwards = i > near / 2 && outward.Dot(axis) < -BackwardCosine ? backwards + 1 : 0;
                if (backwards > TangentPx) return Math.Max(1, i - 2 * TangentPx);
            }
            return Math.Max(1, i - 1);
        }
    }
}
