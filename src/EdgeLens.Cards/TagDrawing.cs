using System.Collections.Immutable;
using EdgeLens.Cards.Drawing;
using EdgeLens.Cards.Sheets;
using EdgeLens.Cards.Tags;
using SkiaSharp;

namespace EdgeLens.Cards;

/// <summary>Draws tags at true scale. The same tags give the same bytes.</summary>
public static class TagDrawing
{
    private const float PointsPerMm = 72 / 25.4f;

    /// <summary>Sheets to print, as many as the tags need.</summary>
    /// <param name="target">Written to, left open.</param>
    /// <param name="tags">At least one.</param>
    /// <param name="paper">Page size.</param>
    public static void WritePdf(Stream target, ImmutableArray<TagLabel> tags, PaperSize paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        TagSheet sheet = new(paper);
        // 254 pixels to the inch are ten to the millimetre: page sizes come out exact.
        using SKDocument document = SKDocument.CreatePdf(target, new SKDocumentPdfMetadata { Title = "EdgeLens tags", Creator = "EdgeLens", Producer = "EdgeLens", RasterDpi = 254, EncodingQuality = 101 });
        foreach (TagLabel[] page in tags.Chunk(sheet.Room))
        {
            using SKCanvas canvas = document.BeginPage((float)paper.WidthMm * PointsPerMm, (float)paper.HeightMm * PointsPerMm);
            canvas.Scale(PointsPerMm);
            sheet.Draw(canvas, [.. page]);
            document.EndPage();
        }
        document.Close();
    }

    /// <summary>The first sheet as an 8-bit grey PNG with its resolution in it; the PDF is the safer way to true size.</summary>
    /// <param name="tags">At least one; no more than fit on a sheet are drawn.</param>
    /// <param name="paper">Page size.</param>
    /// <param name="dpi">Pixels per inch, 150 to 2400.</param>
    public static byte[] ToPng(ImmutableArray<TagLabel> tags, PaperSize paper, int dpi = 600)
    {
        ArgumentNullException.ThrowIfNull(paper);
        TagSheet sheet = new(paper);
        return PngCard.Draw(paper.WidthMm, paper.HeightMm, dpi, canvas => sheet.Draw(canvas, [.. tags.Take(sheet.Room)]));
    }

    /// <summary>Tags that fit on one sheet.</summary>
    public static int Room(PaperSize paper) => new TagSheet(paper).Room;
}
