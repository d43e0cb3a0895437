using System.Globalization;
using EdgeLens.PracticeReports.Content;
using SkiaSharp;

namespace EdgeLens.PracticeReports.Pdf;

/// <summary>A report as PDF: real text, fonts embedded, lines of the plots as lines.</summary>
public static class PdfReport
{
    private const float PointsPerMm = 72 / 25.4f;

    /// <summary>Writes the pages.</summary>
    /// <param name="target">Left open.</param>
    /// <param name="report">What to say.</param>
    /// <param name="paper">On what.</param>
    public static void Write(Stream target, PracticeReport report, Paper paper)
    {
        ArgumentNullException.ThrowIfNull(report);
        ArgumentNullException.ThrowIfNull(paper);
        PageComposer composer = new(paper);
        BlockPrinter printer = new(composer);
        printer.Head(report);
        for (int i = 0; i < report.Blocks.Length; i++) printer.Print(report.Blocks[i], i + 1 < report.Blocks.Length ? report.Blocks[i + 1] : null);

        SKDocumentPdfMetadata about = new()
        {
            Title = report.Title,
            Author = report.About.PracticeName,
            Creator = $"EdgeLens {report.About.ProgramVersion}",
            Producer = "EdgeLens",
            // Page sizes are rounded to whole pixels of this: 254 to the inch are ten to the millimetre, so that A4 and Letter come out exact.
            RasterDpi = 254,
            EncodingQuality = 101,
        };
        using SKDocument document = SKDocument.CreatePdf(target, about);
        for (int number = 0; number < composer.Pages.Count; number++)
        {
            using SKCanvas canvas = document.BeginPage((float)paper.WidthMm * PointsPerMm, (float)paper.HeightMm * PointsPerMm);
            canvas.Scale(PointsPerMm);
            foreach (Action<SKCanvas> draw in composer.Pages[number]) draw(canvas);
            Footer(canvas, report, paper, number + 1, composer.Pages.Count);
            document.EndPage();
        }
        document.Close();
    }

    private static void Footer(SKCanvas canvas, PracticeReport report, Paper paper, int number, int count)
    {
        double y = paper.HeightMm - 9;
        Pen.Line(canvas, PageComposer.MarginMm, y - 4, paper.WidthMm - PageComposer.MarginMm, y - 4, Pen.Grey, 0.15);
        string left = string.Create(CultureInfo.InvariantCulture, $"{report.Title} · {report.About.PracticeName} · {report.About.Day:yyyy-MM-dd}{(report.About.IsDemo ? " · demonstration" : "")}");
        Pen.Text(canvas, PageComposer.MarginMm, y, left, 2.6, false, Pen.Soft);
        Pen.Text(canvas, paper.WidthMm - PageComposer.MarginMm, y, string.Create(CultureInfo.InvariantCulture, $"EdgeLens {report.About.ProgramVersion} · page {number} of {count}"), 2.6, false, Pen.Soft, flushRight: true);
    }
}
