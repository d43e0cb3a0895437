using EdgeLens.Imaging.Cards;
using SkiaSharp;

namespace EdgeLens.Cards.Drawing;

/// <summary>Draws a card with Skia, for PDF and for pixels.</summary>
internal static class SkiaCard
{
    /// <summary>Draws the card with its top left corner at the origin.</summary>
    /// <param name="canvas">Borrowed; one unit is one millimetre.</param>
    /// <param name="art">What to draw.</param>
    internal static void Draw(SKCanvas canvas, CardArtwork art)
    {
        using SKPaint ink = new() { IsAntialias = true, Color = SKColors.Black };
        using SKPath black = OnePath(art);
        canvas.DrawPath(black, ink);
        foreach (PatchInk patch in art.Patches)
        {
            ink.Color = Grey(patch.Tone);
            canvas.DrawRect(ToSkia(patch.Area), ink);
        }

        foreach (CardLabel label in art.Labels)
        {
            ink.Color = Grey(label.Tone);
            using SKPath letters = label.Outlines();
            canvas.DrawPath(letters, ink);
        }

        using SKPaint line = new() { IsAntialias = true, Color = SKColors.Black, IsStroke = true, StrokeWidth = (float)CardArtwork.LineWidthMm, StrokeJoin = SKStrokeJoin.Miter };
        using SKPathBuilder cut = new();
        cut.AddPoly([.. art.CutLine.Select(p => new SKPoint((float)p.XMm, (float)p.YMm))], close: true);
        using SKPath cutPath = cut.Detach();
        canvas.DrawPath(cutPath, line);
    }

    private static SKPath OnePath(CardArtwork art)
    {
        using SKPathBuilder path = new();
        foreach (DesignRectangle r in art.Black) path.AddRect(ToSkia(r));
        return path.Detach();
    }

    private static SKRect ToSkia(DesignRectangle r) => new((float)r.XMm, (float)r.YMm, (float)r.RightMm, (float)r.BottomMm);

    private static SKColor Grey(byte tone) => new(tone, tone, tone);
}
