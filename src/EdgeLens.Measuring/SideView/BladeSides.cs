using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;
using EdgeLens.Imaging.Silhouettes;
using OpenCvSharp;

namespace EdgeLens.Measuring.SideView;

/// <summary>The two long lines of a blade that stands on edge before the black window, and where the blade ends as far as it is clearly lit.</summary>
/// <param name="Upper">Towards the picture's top, leading to the tip; fitted.</param>
/// <param name="Lower">Towards the bottom, leading to the tip; fitted.</param>
/// <param name="LitTipXPx">Column where the clearly lit steel ends; a grazing bevel mirrors the window and may reach farther.</param>
/// <param name="TipToRight">Which way the tip points.</param>
internal sealed record BladeSides(StraightEdge Upper, StraightEdge Lower, double LitTipXPx, bool TipToRight)
{
    // The lines are taken where the blade is full: behind the bevel (1.6 mm and more at 30°) and before wings or taper set in.
    private const double NearMm = 1.9;
    private const double FarMm = 4.2;
    private const double TolerancePx = 2.5;

    /// <summary>Finds them.</summary>
    /// <param name="grey">CV_8UC1, borrowed.</param>
    /// <param name="picture">The same.</param>
    /// <param name="region">Window, borrowed.</param>
    /// <param name="mmPerPx">At the blade.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <returns>The lines, or the refusals <c>no-blade</c> or <c>blade-hidden</c>.</returns>
    public static Outcome<BladeSides> Find(Mat grey, TonePicture picture, WindowRegion region, double mmPerPx, Sharpening sharpening)
    {
        (SteelMask? found, Refusal? refusal) = SteelMask.Find(grey, region, mmPerPx);
        if (found is not { } mask) return refusal!;
        using (mask)
        {
            Columns columns = Columns.Of(mask.Pixels, region.Bounds.TopLeft);
            bool toRight = columns.First - region.Bounds.Left < region.Bounds.Right - 1 - columns.Last;
            double tip = toRight ? columns.Last : columns.First;
            List<double> x = [], upper = [], lower = [];
            int sign = toRight ? 1 : -1;
            for (double back = FarMm / mmPerPx; back >= NearMm / mmPerPx; back -= 2)
            {
                int column = (int)Math.Round(tip - sign * back);
                if (columns.At(column) is not { } span) continue;
                (double top, double bottom) = span;
                x.Add(column);
                upper.Add(top);
                lower.Add(bottom);
            }
            if (Line(picture, x, upper, lower, sharpening) is not { } up || Line(picture, x, lower, upper, sharpening) is not { } low)
                return new Refusal("blade-hidden", "The blade's two sides cannot be followed before the black window.",
                    "Lay the blade on edge so that its last 5 mm lie before the black window, tip to the left or right, and take the photograph again.");
            return new BladeSides(up, low, tip, toRight);
        }
    }

    private static StraightEdge? Line(TonePicture picture, List<double> x, List<double> side, List<double> other, Sharpening sharpening)
    {
        if (x.Count < 30) return null;
        double span = Math.Abs(x[^1] - x[0]);
        if (ConsensusLine.Through([.. x], [.. side], TolerancePx, span / 3) is not { } line || line.Inliers.Length < x.Count / 2) return null;
        PixelPoint inside = new(x[x.Count / 2], (side[x.Count / 2] + other[x.Count / 2]) / 2);
        Stretch start = Stretch.Between(new(x[0], line.At(x[0])), new(x[^1], line.At(x[^1])), inside);
        // Twice: the mask's rim may lie three pixels off, the limit of what one fit moves.
        StraightEdge first = StraightEdgeFitter.Fit(picture, start, sharpening, 6, 6, 0.6, 4);
        return StraightEdgeFitter.Fit(picture, first.Line, sharpening, 6, 6, 0.6, 4);
    }

    /// <summary>First and last steel in each column.</summary>
    private sealed class Columns
    {
        private readonly (int Top, int Bottom)[] _spans;
        private readonly int _left;

        private Columns((int Top, int Bottom)[] spans, int left)
        {
            (_spans, _left) = (spans, left);
            First = left + Array.FindIndex(spans, s => s.Bottom >= 0);
            Last = left + Array.FindLastIndex(spans, s => s.Bottom >= 0);
        }

        public int First { get; }

        public int Last { get; }

        public (double Top, double Bottom)? At(int column) =>
            column - _left is var i && i >= 0 && i < _spans.Length && _spans[i].Bottom >= 0 ? (_spans[i].Top, _spans[i].Bottom) : null;

        public static Columns Of(Mat mask, Point origin)
        {
            (int Top, int Bottom)[] spans = new (int, int)[mask.Cols];
            Array.Fill(spans, (int.MaxValue, -1));
            int rows = mask.Rows;
            for (int y = 0; y < rows; y++)
            {
                ReadOnlySpan<byte> row = mask.RowSpan<byte>(y);
                for (int x = 0; x < row.Length; x++)
                    if (row[x] != 0) spans[x] = (Math.Min(spans[x].Top, y + origin.Y), y + origin.Y);
            }
            return new(spans, origin.X);
        }
    }
}
