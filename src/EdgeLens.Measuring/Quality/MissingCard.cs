using EdgeLens.Geometry.Figures;
using OpenCvSharp;

namespace EdgeLens.Measuring.Quality;

/// <summary>Why a photograph shows no readable card: the camera moved, it is another kind of picture, or the card is simply not there.</summary>
/// <remarks>
/// A card fills the picture with squares, so that most tiles of the picture have strong edges. A camera that moved while the shutter was open wipes out
/// fine detail along the movement and keeps it across.
/// </remarks>
public static class MissingCard
{
    // On a copy of this width a card's square (2 mm of some 28) is 14 px: every tile of 10 px meets a border.
    private const int ReducedWidthPx = 200;

    // A tile of the reduced picture counts as textured when its strongest step is this much of full tone: card squares differ by half of it at least.
    private const double TileStep = 0.12;
    private const int TilePx = 10;

    // A card fills most of the picture; an instrument on a bare table a seventh of it.
    private const double CardTileShare = 0.45;
    private const double EmptyTileShare = 0.2;

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
        if (textured > CardTileShare && CameraMotion.Check(grey) is { } moved) return moved;
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
}
