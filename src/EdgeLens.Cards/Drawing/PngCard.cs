using EdgeLens.Imaging.Photographs;
using SkiaSharp;

namespace EdgeLens.Cards.Drawing;

/// <summary>A card as a PNG file whose resolution is written in it, so that a program that honours it prints true to size.</summary>
internal static class PngCard
{
    private const double MmPerInch = 25.4;

    internal static byte[] Draw(CardArtwork art, int dpi) => Draw(art.WidthMm, art.HeightMm, dpi, canvas => SkiaCard.Draw(canvas, art));

    /// <summary>Anything of a true size.</summary>
    /// <param name="widthMm">Of the picture.</param>
    /// <param name="heightMm">Of the picture.</param>
    /// <param name="dpi">Pixels per inch.</param>
    /// <param name="draw">On a canvas whose unit is the millimetre.</param>
    internal static byte[] Draw(double widthMm, double heightMm, int dpi, Action<SKCanvas> draw)
    {
        // The file can only say whole pixels per metre (ISO/IEC 15948, 11.3.5.3): draw by what it says, not by what was asked for (600 dpi: 23622 instead of 23622.05).
        int pixelsPerMetre = (int)Math.Round(1000 / MmPerInch * dpi);
        double pixelsPerMm = pixelsPerMetre / 1000.0;
        // Rounded up: a card of 2022.05 pixels gets 2023, the last one nearly bare paper.
        using SKBitmap picture = new(new SKImageInfo((int)Math.Ceiling(widthMm * pixelsPerMm), (int)Math.Ceiling(heightMm * pixelsPerMm), SKColorType.Gray8, SKAlphaType.Opaque));
        using (SKCanvas canvas = new(picture))
        {
            canvas.Clear(SKColors.White);
            canvas.Scale((float)pixelsPerMm);
            draw(canvas);
        }

        using SKData file = picture.Encode(SKEncodedImageFormat.Png, 100);
        return PngChunk.WithResolution(file.AsSpan(), pixelsPerMetre);
    }
}
