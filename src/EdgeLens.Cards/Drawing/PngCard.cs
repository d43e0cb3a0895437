using EdgeLens.Imaging.Photographs;
using SkiaSharp;

namespace EdgeLens.Cards.Drawing;

/// <summary>A card as a PNG file whose resolution is written in it, so that a program that honours it prints true to size.</summary>
internal static class PngCard
{
    private const double MmPerInch = 25.4;

    internal static byte[] Draw(CardArtwork art, int dpi)
    {
        // The file can only say whole pixels per metre (ISO/IEC 15948, 11.3.5.3): draw by what it says, not by what was asked for (600 dpi: 23622 instead of 23622.05).
        int pixelsPerMetre = (int)Math.Round(1000 / MmPerInch * dpi);
        double pixelsPerMm = pixelsPerMetre / 1000.0;
        // Rounded up: a card of 2022.05 pixels gets 2023, the last one nearly bare paper.
        using SKBitmap picture = new(new SKImageInfo((int)Math.Ceiling(art.WidthMm * pixelsPerMm), (int)Math.Ceiling(art.HeightMm * pixelsPerMm), SKColorType.Gray8, SKAlphaType.Opaque));
        using (SKCanvas canvas = new(picture))
        {
            canvas.Clear(SKColors.White);
            canvas.Scale((float)pixelsPerMm);
            SkiaCard.Draw(canvas, art);
        }

        using SKData file = picture.Encode(SKEncodedImageFormat.Png, 100);
        return PngChunk.WithResolution(file.AsSpan(), pixelsPerMetre);
    }
}
