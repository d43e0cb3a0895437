using EdgeLens.Imaging.Cards;
using SkiaSharp;

namespace EdgeLens.Cards.Sheets;

/// <summary>The document to print: the card's page and the page of instructions.</summary>
internal static class PdfSheets
{
    /// <summary>Height that heading and lines to fill in take on the card's page.</summary>
    internal const double RoomForWordsMm = 60;

    private const float PointsPerMm = 72 / 25.4f;

    internal static void Write(Stream target, CardDescription card, PaperSize paper)
    {
        SKDocumentPdfMetadata about = new()
        {
            Title = $"EdgeLens reference card {card.Name}",
            Creator = "EdgeLens",
            Producer = "EdgeLens",
            // Page sizes are rounded to whole pixels of this: 254 to the inch are ten to the millimetre, so that A4 and Letter come out exact.
            RasterDpi = 254,
            EncodingQuality = 101,
        };
        using SKDocument document = SKDocument.CreatePdf(target, about);
        Page(document, paper, canvas => CardSheet.Draw(canvas, card, paper));
        Page(document, paper, canvas => InstructionSheet.Draw(canvas, card, paper));
        document.Close();
    }

    private static void Page(SKDocument document, PaperSize paper, Action<SKCanvas> draw)
    {
        using SKCanvas canvas = document.BeginPage((float)paper.WidthMm * PointsPerMm, (float)paper.HeightMm * PointsPerMm);
        canvas.Scale(PointsPerMm);
        draw(canvas);
        document.EndPage();
    }
}
