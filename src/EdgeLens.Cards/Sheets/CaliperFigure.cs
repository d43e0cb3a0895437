namespace EdgeLens.Cards.Sheets;

/// <summary>Shows between which borders a bar is measured: outer end to outer end, the jaws across it. Broken in the middle, so that nobody measures the drawing.</summary>
internal static class CaliperFigure
{
    internal const double HeightMm = 27;

    private const double BarLeft = 22, BarRight = 82, BarTop = 13, BarHeight = 4, JawWidth = 5;

    internal static void Draw(SheetPen pen, double x, double y)
    {
        const byte Steel = 205;
        // The beam and the two jaws, whose inner faces touch the bar's ends.
        pen.Box(x + 4, y + 0.5, 96, 4, Steel, 0.15);
        Jaw(pen, x + BarLeft, y, -JawWidth);
        Jaw(pen, x + BarRight, y, JawWidth);
        pen.Box(x + BarLeft, y + BarTop, BarRight - BarLeft, BarHeight, 0);
        double middle = x + (BarLeft + BarRight) / 2;
        pen.Shape(255, 0.01, (middle - 2, y + BarTop - 0.5), (middle + 1, y + BarTop - 0.5), (middle + 2, y + BarTop + BarHeight + 0.5), (middle - 1, y + BarTop + BarHeight + 0.5));
        pen.Line(middle - 2, y + BarTop - 0.5, middle - 1, y + BarTop + BarHeight + 0.5);
        pen.Line(middle + 1, y + BarTop - 0.5, middle + 2, y + BarTop + BarHeight + 0.5);

        double level = y + BarTop + BarHeight + 5;
        pen.Line(x + BarLeft, y + BarTop + BarHeight + 0.5, x + BarLeft, level + 1);
        pen.Line(x + BarRight, y + BarTop + BarHeight + 0.5, x + BarRight, level + 1);
        pen.Span(x + BarLeft, x + BarRight, level);
        pen.Write("this length, outer end to outer end", x + BarLeft + 4, level + 0.5, 70, 2.6);
        pen.Write("jaws close on the two ends of the black, square to the bar", x + BarRight + 12, y + 7, 50, 2.6);
        pen.Write("(a sketch: not to be measured)", x + BarRight + 12, y + 16, 50, 2.6);
    }

    /// <summary>From the beam down past the bar; its inner face stands at <paramref name="faceX"/>.</summary>
    private static void Jaw(SheetPen pen, double faceX, double y, double outward) => pen.Shape(
        205, 0.15, (faceX, y + 4.5), (faceX, y + BarTop + BarHeight + 1.5), (faceX + 0.4 * outward, y + BarTop + BarHeight + 1.5), (faceX + outward, y + 4.5));
}
