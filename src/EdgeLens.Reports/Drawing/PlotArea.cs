using System.Globalization;
using System.Xml.Linq;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Drawing;

/// <summary>The rectangle of a plot inside its drawing, and how figures become places in it. Drawings are made for a phone's width and grow from there.</summary>
/// <param name="HeightPx">Of the drawing.</param>
/// <param name="TopPx">Margin.</param>
/// <param name="BottomPx">Margin, with the words of the axis.</param>
/// <param name="LeftPx">Margin, with the numbers of the axis.</param>
/// <param name="XMin">At the left.</param>
/// <param name="XMax">At the right.</param>
/// <param name="YMin">At the bottom.</param>
/// <param name="YMax">At the top.</param>
internal sealed record PlotArea(double HeightPx, double TopPx, double BottomPx, double LeftPx, double XMin, double XMax, double YMin, double YMax)
{
    /// <summary>Width of every drawing, px: what a phone of 360 px shows without making the letters smaller.</summary>
    public const double WidthPx = 328;

    public const double RightPx = 8;

    public double X(double x) => LeftPx + (x - XMin) / (XMax - XMin) * (WidthPx - RightPx - LeftPx);

    public double Y(double y) => HeightPx - BottomPx - (y - YMin) / (YMax - YMin) * (HeightPx - TopPx - BottomPx);

    /// <summary>The drawing: its words for those who cannot see it, then its content.</summary>
    public XElement Svg(string description, params object?[] content) => El("svg.plot",
        Attr("viewBox", $"0 0 {Px(WidthPx)} {Px(HeightPx)}"), Attr("role", "img"), Attr("aria-label", description), content);

    /// <summary>Grid lines, numbers and the words of both axes.</summary>
    public IEnumerable<XElement> Axes(string xWords, string yWords, double xStep, double yStep, int xDecimals = 0)
    {
        foreach (double y in Ticks(YMin, YMax, yStep))
        {
            yield return Line(X(XMin), Y(y), X(XMax), Y(y), y == 0 ? "axis" : "grid");
            yield return Words(LeftPx - 4, Y(y) + 3.5, "tick end", Number(y, yStep < 1 ? 1 : 0));
        }
        foreach (double x in Ticks(XMin, XMax, xStep))
        {
            yield return Line(X(x), Y(YMin), X(x), Y(YMin) + 4, "axis");
            yield return Words(X(x), Y(YMin) + 15, "tick middle", Number(x, xDecimals));
        }
        yield return Words((X(XMin) + X(XMax)) / 2, HeightPx - 3, "tick middle", xWords);
        yield return Words(2, TopPx - 7, "tick", yWords);
    }

    public static XElement Line(double x1, double y1, double x2, double y2, string cssClass) =>
        El("line." + cssClass, Attr("x1", x1), Attr("y1", y1), Attr("x2", x2), Attr("y2", y2));

    public static XElement Words(double x, double y, string cssClass, string words) => El("text." + cssClass, Attr("x", x), Attr("y", y), words);

    /// <summary>Multiples of a step within a range.</summary>
    public static IEnumerable<double> Ticks(double from, double to, double step)
    {
        for (long i = (long)Math.Ceiling(from / step - 1e-9); i * step <= to + 1e-9 * step; i++) yield return i * step;
    }

    /// <summary>A step of 1, 2 or 5 times a power of ten that divides a range in at most so many parts.</summary>
    public static double Step(double range, int parts)
    {
        double raw = range / parts, power = Math.Pow(10, Math.Floor(Math.Log10(raw)));
        return new[] { 1.0, 2, 5, 10 }.Select(f => f * power).First(s => s >= raw * (1 - 1e-9));
    }

    private static string Number(double value, int decimals) => value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture).Replace('-', '−');
}
