using EdgeLens.Geometry.Figures;
using OpenCvSharp;

namespace EdgeLens.Measuring.Quality;

/// <summary>Why a photograph shows no readable card: the camera moved, it is another kind of picture, or the card is simply not there.</summary>
/// <remarks>
/// A card fills the picture with squares, so that most tiles of the picture have strong edges. A camera that moved while the shutter was open wipes out
/// fine detail along the movement and keeps it across. Both are judged on gradients: fine ones on the picture itself, coarse ones on a reduced copy.
/// </remarks>
public static class MissingCard
{
    private const int ReducedWidthPx = 200;

    // A tile of the reduced picture counts as textured when its strongest step is this much of full tone: card squares differ by half of it at least.
    private const double TileStep = 0.12;
    private const int TilePx = 10;

    // A card fills most of the picture; an instrument on a bare table a seventh of it.
    private const double CardTileShare = 0.45;
    private const double EmptyTileShare = 0.2;

    // Fine detail along the movement has lost at least this factor more energy than across it.
    private const double MotionRatio = 4;

    /// <summary>Replaces the bare "no card" by the better reason where there is one.</summary>
    /// <param name="grey">The photograph's luma, borrowed.</param>
    /// <param name="cardRefusal">From the card's detector.</param>
    public static Refusal Explain(Mat grey, Refusal cardRefusal)
    {
        ArgumentNullException.ThrowIfNull(grey);
        ArgumentNullException.ThrowIfNull(cardRefusal);
        if (cardRefusal.Code != "no-card") return cardRefusal;
        using Mat reduced = new();
        double factor = Math.Min(1, (double)ReducedWidthPx / grey.Cols);
        Cv2.Resize(grey, reduced, default, factor, factor, InterpolationFlags.Area);
        double textured = TexturedShare(reduced);
        if (textured > CardTileShare && MotionAlong(grey, reduced) is { } ratio && ratio > MotionRatio)
            return new("motion", "The camera moved while the photograph was taken: fine detail is wiped out in one direction.",
                "Rest the hand or the phone, use more light, and take the photograph again.", ratio, MotionRatio, "times");
        if (textured > EmptyTileShare)
            return new("unrelated", "This is not a photograph of a working end in the reference card's window.",
                "Lay the card flat with the blade in its window and take a photograph of that.", 100 * textured, 100 * EmptyTileShare, "% of the picture with other things");
        return cardRefusal;
    }

    private static double TexturedShare(Mat reduced)
    {
        int rows = reduced.Rows / TilePx, columns = reduced.Cols / TilePx, textured = 0;
        for (int r = 0; r < rows; r++)
        {
            for (int c = 0; c < columns; c++)
            {
                byte least = 255, greatest = 0;
                for (int y = r * TilePx; y < (r + 1) * TilePx; y++)
                {
                    foreach (byte tone in reduced.RowSpan<byte>(y).Slice(c * TilePx, TilePx))
                    {
                        least = Math.Min(least, tone);
                        greatest = Math.Max(greatest, tone);
                    }
                }
                if (greatest - least > 255 * TileStep) textured++;
            }
        }
        return rows * columns == 0 ? 0 : (double)textured / (rows * columns);
    }

    /// <summary>How much more fine detail (against coarse) is left across the worst direction than along it.</summary>
    private static double MotionAlong(Mat grey, Mat reduced)
    {
        (double XX, double XY, double YY) fine = Energy(grey, 2), coarse = Energy(reduced, 0.7);
        double worst = 0;
        for (int k = 0; k < 8; k++)
        {
            double angle = k * Math.PI / 8;
            double along = Along(fine, angle) / Along(coarse, angle), across = Along(fine, angle + Math.PI / 2) / Along(coarse, angle + Math.PI / 2);
            worst = Math.Max(worst, across / along);
        }
        return worst;
    }

    private static double Along((double XX, double XY, double YY) e, double angle)
    {
        (double s, double c) = Math.SinCos(angle);
        return Math.Max(1e-9, c * c * e.XX + 2 * s * c * e.XY + s * s * e.YY);
    }

    private static (double XX, double XY, double YY) Energy(Mat grey, double sigma)
    {
        using Mat smooth = new(), gx = new(), gy = new(), product = new();
        Cv2.GaussianBlur(grey, smooth, new Size(0, 0), sigma);
        Cv2.Sobel(smooth, gx, MatType.CV_32F, 1, 0);
        Cv2.Sobel(smooth, gy, MatType.CV_32F, 0, 1);
        Cv2.Multiply(gx, gy, product);
        double xx = Math.Pow(Cv2.Norm(gx), 2), yy = Math.Pow(Cv2.Norm(gy), 2);
        return (xx, Cv2.Sum(product).Val0, yy);
    }
}
