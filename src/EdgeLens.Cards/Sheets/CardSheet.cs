using EdgeLens.Cards.Drawing;
using EdgeLens.Imaging.Cards;
using SkiaSharp;

namespace EdgeLens.Cards.Sheets;

/// <summary>Page 1: the card at true scale with crop marks, and lines to fill in.</summary>
internal static class CardSheet
{
    private const double CardTopMm = 45, MarkGapMm = 1, MarkLengthMm = 4, TextMm = 3.2;

    internal static void Draw(SKCanvas canvas, CardDescription card, PaperSize paper)
    {
        SheetPen pen = new(canvas);
        double left = PaperSize.MarginMm, width = paper.WidthMm - 2 * PaperSize.MarginMm;
        double y = pen.Write($"EdgeLens reference card {card.Name}", left, PaperSize.MarginMm, width, 5, bold: true);
        pen.Write("Print this page at 100 % (\"actual size\", never \"fit to page\"), 600 dpi or better, black only, on matt white stock. Then follow page 2.", left, y + 1, width, TextMm);

        double cardLeft = (paper.WidthMm - card.OuterWidthMm) / 2;
        canvas.Save();
        canvas.Translate((float)cardLeft, (float)CardTopMm);
        SkiaCard.Draw(canvas, CardArtwork.Of(card));
        canvas.Restore();
        CropMarks(pen, cardLeft, CardTopMm, card.OuterWidthMm, card.OuterHeightMm);

        y = CardTopMm + card.OuterHeightMm + MarkGapMm + MarkLengthMm + 5;
        y = pen.Write("Measured with a caliper, mean of three readings:", left, y, width, TextMm, bold: true) + 2;
        y = ToFillIn(pen, FormattableString.Invariant($"horizontal bar (drawn as {card.BarX.LengthMm:0.00} mm)"), "mm", left, y);
        y = ToFillIn(pen, FormattableString.Invariant($"vertical bar (drawn as {card.BarY.LengthMm:0.00} mm)"), "mm", left, y);
        ToFillIn(pen, "date, printer, stock", "", left, y);
    }

    private static void CropMarks(SheetPen pen, double left, double top, double width, double height)
    {
        foreach (double y in (double[])[top, top + height])
        {
            pen.Line(left - MarkGapMm - MarkLengthMm, y, left - MarkGapMm, y, CardArtwork.LineWidthMm);
            pen.Line(left + width + MarkGapMm, y, left + width + MarkGapMm + MarkLengthMm, y, CardArtwork.LineWidthMm);
        }

        foreach (double x in (double[])[left, left + width])
        {
            pen.Line(x, top - MarkGapMm - MarkLengthMm, x, top - MarkGapMm, CardArtwork.LineWidthMm);
            pen.Line(x, top + height + MarkGapMm, x, top + height + MarkGapMm + MarkLengthMm, CardArtwork.LineWidthMm);
        }
    }

    private static double ToFillIn(SheetPen pen, string what, string unit, double left, double y)
    {
        const double LineFrom = 70, LineTo = 110;
        double next = pen.Write(what, left, y, LineFrom, TextMm);
        pen.Line(left + LineFrom, y + TextMm + 0.5, left + LineTo, y + TextMm + 0.5);
        if (unit.Length > 0) pen.Write(unit, left + LineTo + 2, y, 10, TextMm);
        return next + 2.5;
    }
}
