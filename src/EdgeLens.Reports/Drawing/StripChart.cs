using System.Xml.Linq;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Drawing;

/// <summary>A figure along an edge: line with its band of expanded uncertainty, limits as labelled lines, hatching where nothing was measured.</summary>
internal static class StripChart
{
    /// <summary>Id of the hatching that the page defines once.</summary>
    public const string HatchId = "hatch";

    private const double HeightPx = 138;

    // A strip of photograph above the plot: a line of light of one pixel must be seen, and the axis's words must find room below it.
    private const double StripPx = 34, StripGapPx = 20;

    /// <param name="samples">Place along the edge in mm and figure, ordered by place; at least two.</param>
    /// <param name="limits">Value and words of each limit.</param>
    /// <param name="description">For those who cannot see the drawing.</param>
    /// <param name="xWords">What the horizontal axis is.</param>
    /// <param name="yWords">What the vertical axis is, with its unit.</param>
    /// <param name="strip">The same stretch of edge in the photograph, shown above on the same places; null for none.</param>
    public static XElement Draw(
        IReadOnlyList<(double PlaceMm, Figure Figure)> samples, IReadOnlyList<(double Value, string Words)> limits, string description, string xWords, string yWords, ReportEdgeStrip? strip = null)
    {
        double above = strip is null ? 0 : StripPx + StripGapPx - 10;
        double xMin = Math.Min(samples[0].PlaceMm, 0), xMax = Math.Max(samples[^1].PlaceMm, xMin + 0.5);
        Measured[] measured = [.. samples.Select(s => s.Figure.Measured).OfType<Measured>()];
        double top = measured.Select(m => m.Value + m.ExpandedUncertainty).Concat(limits.Select(l => 1.35 * l.Value)).DefaultIfEmpty(10).Max();
        double bottom = measured.Select(m => m.Value - m.ExpandedUncertainty).Append(0).Min();
        double step = PlotArea.Step(Math.Max(top - bottom, 1), 4);
        PlotArea area = new(HeightPx + above, 22 + above, 34, 34, xMin, xMax, bottom, Math.Ceiling(top / step) * step);
        double xStep = PlotArea.Step(xMax - xMin, 6);

        return area.Svg(description,
            strip is null ? null : Photograph(area, strip),
            Runs(samples, isMeasured: false).Select(r => Hatched(area, samples, r)),
            area.Axes(xWords, yWords, xStep, step, xStep < 1 ? 1 : 0),
            Runs(samples, isMeasured: true).Select(r => Curve(area, [.. samples.Skip(r.First).Take(r.Count)])),
            limits.SelectMany(l => Limit(area, l)));
    }

    /// <summary>The strip, cut to the plot's width by the drawing's own clip, with a mark at either side where the edge lies.</summary>
    private static XElement[] Photograph(PlotArea area, ReportEdgeStrip strip)
    {
        double left = area.X(Math.Max(strip.FromMm, area.XMin)), right = area.X(Math.Min(strip.ToMm, area.XMax)), edge = StripPx * strip.EdgeShare;
        return
        [
            El("svg", Attr("x", left), Attr("y", 0), Attr("width", right - left), Attr("height", StripPx), Attr("preserveAspectRatio", "none"),
                El("image", Attr("x", area.X(strip.FromMm) - left), Attr("y", 0), Attr("width", area.X(strip.ToMm) - area.X(strip.FromMm)), Attr("height", StripPx), Attr("preserveAspectRatio", "none"),
                    Attr("href", EmbeddedJpeg.Href(strip.Jpeg)))),
            PlotArea.Line(left - 6, edge, left - 1, edge, "axis"),
            PlotArea.Words(left - 8, edge + 3.5, "tick end", "edge"),
        ];
    }

    private static XElement Curve(PlotArea area, (double PlaceMm, Figure Figure)[] run)
    {
        Vector2 At((double PlaceMm, Figure Figure) s, double sign) =>
            new(area.X(s.PlaceMm), area.Y(s.Figure.Measured!.Value.Value + sign * s.Figure.Measured.Value.ExpandedUncertainty));
        return El("g",
            El("path.uncertainty", Attr("d", PathText.Of([.. run.Select(s => At(s, 1)), .. run.Reverse().Select(s => At(s, -1))], isClosed: true))),
            El("path.curve", Attr("d", PathText.Of(run.Select(s => At(s, 0))))));
    }

    private static IEnumerable<XElement> Limit(PlotArea area, (double Value, string Words) limit) =>
    [
        PlotArea.Line(area.X(area.XMin), area.Y(limit.Value), area.X(area.XMax), area.Y(limit.Value), "limit"),
        PlotArea.Words(PlotArea.WidthPx - PlotArea.RightPx, area.Y(limit.Value) - 4, "tick end halo", limit.Words),
    ];

    private static XElement Hatched(PlotArea area, IReadOnlyList<(double PlaceMm, Figure Figure)> samples, (int First, int Count) run)
    {
        // A sample speaks for half the way to its neighbours.
        double from = run.First == 0 ? samples[0].PlaceMm : (samples[run.First - 1].PlaceMm + samples[run.First].PlaceMm) / 2;
        int last = run.First + run.Count - 1;
        double to = last == samples.Count - 1 ? samples[last].PlaceMm : (samples[last].PlaceMm + samples[last + 1].PlaceMm) / 2;
        return El("rect", Attr("x", area.X(from)), Attr("y", area.Y(area.YMax)), Attr("width", Math.Max(area.X(to) - area.X(from), 1)),
            Attr("height", area.Y(area.YMin) - area.Y(area.YMax)), Attr("fill", $"url(#{HatchId})"));
    }

    private static IEnumerable<(int First, int Count)> Runs(IReadOnlyList<(double PlaceMm, Figure Figure)> samples, bool isMeasured)
    {
        for (int i = 0; i < samples.Count; i++)
        {
            if (samples[i].Figure.Measured is not null != isMeasured) continue;
            int first = i;
            while (i + 1 < samples.Count && samples[i + 1].Figure.Measured is not null == isMeasured) i++;
            yield return (first, i + 1 - first);
        }
    }
}
