using System.Xml.Linq;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;
using EdgeLens.Reports.Drawing;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>Along each cutting edge: the width of the line of light, with the sharp limit, and the metal lost.</summary>
internal static class EdgeSection
{
    public static XElement? Build(Inspection inspection)
    {
        if (inspection.Today is not { } today) return null;
        XElement[] edges = [.. CuttingParts.Of(inspection.Family, inspection.WorkingEdge).Judged.Select(p => Edge(inspection, today, p)).OfType<XElement>()];
        if (edges.Length == 0) return null;
        return El("section",
            El("h2", "Along the edge"),
            El("p.lead", "A sharp edge is too thin to reflect light to the camera; a rounded one shows a bright line, the wider the rounder. The shaded band is the figure with its uncertainty."),
            El("div.drawings", edges));
    }

    private static XElement? Edge(Inspection inspection, FaceMeasurement today, EdgePart part)
    {
        string name = PlaceText.Sentence(PlaceText.Name(part, inspection.Family));
        // Along a side the station tells the place; round a toe or tip arc left and right have the same station, so the place is the length along the edge.
        bool isRound = part == EdgePart.Toe;
        string xWords = isRound ? "mm round the edge from the apex (−: left)" : $"mm from the {PlaceText.EndOf(inspection.Family)}";
        (double, Figure)[] light = [.. Ordered(today.Light.Samples.Where(s => s.Part == part).Select(s => (isRound ? s.ArcMm - today.Outline.Apex.ArcMm : s.StationMm, s.ReflectionWidthUm)))];
        (double, Figure)[] loss = inspection is { Drift: { } drift, Baseline: { } baseline }
            ? [.. Ordered(drift.EdgeLoss.Where(s => s.Part == part).Select(s => (isRound ? s.ArcMm - baseline.Outline.Apex.ArcMm : s.StationMm, s.LossUm)))]
            : [];
        XElement? lightChart = !IsWorthDrawing(light) ? null : StripChart.Draw(light, LightLimits(inspection, today), $"{name}: width of the line of light along the edge.", xWords, "line of light, µm");
        XElement? lossChart = !IsWorthDrawing(loss) ? null : StripChart.Draw(loss, [], $"{name}: metal lost along the edge.", xWords, "metal lost, µm");
        string[] missing = [.. light.Select(s => s.Item2.WhyMissing).OfType<string>().Distinct().Take(1).Select(why => $"the light cannot show it ({FigureText.WhyMissing(why)})")];
        if (lightChart is null && lossChart is null && missing.Length == 0) return null;
        bool isHatched = (lightChart is not null && missing.Length > 0) || (lossChart is not null && loss.Any(s => s.Item2.Measured is null));
        return El("figure", El("h3", name), lightChart, lossChart,
            lightChart is null && missing.Length > 0 ? El("figcaption", $"No drawing of the line of light: {missing[0]}.") : null,
            isHatched ? El("figcaption", $"Hatched: {(lightChart is null ? "not seen in both photographs" : missing.FirstOrDefault("not seen in both photographs"))}.") : null);
    }

    private static IEnumerable<(double, Figure)> Ordered(IEnumerable<(double Place, Figure Figure)> samples) => samples.OrderBy(s => s.Place);

    /// <summary>A line needs two places; a drawing of nothing but hatching is a sentence.</summary>
    private static bool IsWorthDrawing((double Place, Figure Figure)[] samples) => samples.Length > 1 && samples.Any(s => s.Figure.Measured is not null);

    private static (double, string)[] LightLimits(Inspection inspection, FaceMeasurement today)
    {
        List<(double, string)> limits = [];
        if (today.Light.SharpLimitUm is { } sharp) limits.Add((sharp, $"sharp below {FigureText.Limit(sharp, "µm")}"));
        if (inspection.Verdict.Checks.FirstOrDefault(c => c.What == CheckedFigure.GreatestReflectionWidth) is { } wide)
            limits.Add((wide.Limit, $"resharpen above {FigureText.Limit(wide.Limit, "µm")}"));
        return [.. limits];
    }
}
