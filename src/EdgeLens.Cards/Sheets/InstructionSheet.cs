using EdgeLens.Imaging.Cards;
using SkiaSharp;

namespace EdgeLens.Cards.Sheets;

/// <summary>Page 2: from the printer to the first photograph.</summary>
internal static class InstructionSheet
{
    private const double HeadingMm = 3.6, TextMm = 3, IndentMm = 6;

    internal static void Draw(SKCanvas canvas, CardDescription card, PaperSize paper)
    {
        SheetPen pen = new(canvas);
        double left = PaperSize.MarginMm, width = paper.WidthMm - 2 * PaperSize.MarginMm;
        double y = pen.Write("How to make and use the card", left, PaperSize.MarginMm, width, 5, bold: true) + 1;
        y = Step(1, "Print", "Print page 1 at 100 % (\"actual size\"), 600 dpi or better, black only, without toner saving, on matt white stock of about 160 to 200 g/m². " +
            "Glossy stock mirrors the lamps and cannot be used.");
        y = Step(2, "Measure both bars", "Measure each black bar with a caliper between its outer ends, as drawn below, three times, and take the mean to 0.01 mm. " +
            FormattableString.Invariant($"The horizontal bar is drawn as {card.BarX.LengthMm:0.00} mm, the vertical one as {card.BarY.LengthMm:0.00} mm. If one is more than 1 % off, ") +
            "the print was scaled: print again. Printers stretch the two directions differently, so both count.");
        CaliperFigure.Draw(pen, left + IndentMm, y);
        y += CaliperFigure.HeightMm + 3;
        y = Step(3, "Tell the program", "Write both lengths on page 1 and enter them in EdgeLens for this card: all millimetres in its reports rest on them.");
        y = Step(4, "Cut out", "Cut the card out at the crop marks. Cut the window out with a sharp knife and a ruler, along the outer edge of the thin line, " +
            "so that the line falls away. Leave the corner with the three patches standing, and do not cut into the squares.");
        y = Step(5, "Put black behind it", "Glue the card on a flat frame, so that a matt black ground (felt or flocked paper) lies about 5 mm behind the window. " +
            "Dark ground is what makes the bright line of a dull edge visible.");
        RecessFigure.Draw(pen, left + IndentMm, y);
        y += RecessFigure.HeightMm + 3;
        y = Step(6, "Photograph", "Lay the working end in the window, its face up and level with the card, within 1.5 mm. Hold the camera square to the card, 80 to 150 mm away, " +
            "so that the window and at least two rows of squares on every side are sharp. Two soft lights, left and right, 30 to 45° above the card.");
        Step(7, "Good to know", Patches(card) + "Paper grows with moisture by some tenths of a percent: keep the card dry and flat, and measure the bars again every few months " +
            "or after it was damp. Print a new card when it is scratched or stained.");

        double Step(int number, string heading, string text, double gap = 2)
        {
            pen.Write($"{number}", left, y, IndentMm, HeadingMm, bold: true);
            double next = pen.Write(heading, left + IndentMm, y, width - IndentMm, HeadingMm, bold: true);
            return pen.Write(text, left + IndentMm, next, width - IndentMm, TextMm) + gap;
        }
    }

    private static string Patches(CardDescription card) => card.Patches.IsEmpty
        ? ""
        : "The patches are nominal: "
            + string.Join(", ", card.Patches.Select(p => FormattableString.Invariant($"{p.Name} {p.Reflectance:0.00}")))
            + " of the light, the brightest being bare paper; a printer meets the others only to about 0.1. No length depends on them. ";
}
