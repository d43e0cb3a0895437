using System.Collections.Immutable;
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
    public static XElement? Build(Inspection inspection, ImmutableArray<ReportEdgeStrip> strips)
    {
        if (inspection.Today is not { } today) return null;
        XElement[] edges = [.. CuttingParts.Of(inspection.Family, inspection.WorkingEdge).Judged.Select(p => Edge(inspection, today, p, strips.FirstOrDefault(s => s.Part == p))).OfType<XElement>()];
        if (edges.Length == 0) return null;
        return El("section",
            El("h2", "Along the edge"),
            El("p.lead", "A sharp edge is too thin to reflect light to the camera; a rounded one shows a bright line, the wider the rounder. Above: the edge in the photograph, unrolled straight. Below: the radius of its rounding; the shaded band is the figure with its uncertainty."),
            El("div.drawings", edges));
    }

    private static XElement? Edge(Inspection inspection, FaceMeasurement today, EdgePart part, ReportEdgeStrip? strip)
    {
        string name = PlaceText.Sentence(PlaceText.Name(part, inspection.Family));
        // Along a side the station tells the place; round a toe or tip arc left and right have the same station, so the place is the length along the edge.
        bool isRound = part == EdgePart.Toe;
        string xWords = isRound ? "mm round the edge from the apex (−: left)" : $"mm from the {PlaceText.EndOf(inspection.Family)}";
        LightSample[] samples = [.. today.Light.Samples.Where(s => s.Part == part).OrderBy(s => Place(s))];
        // The radius where it is known at all; else the width of the line, which is seen wherever any light is.
        bool isRadius = samples.Any(s => s.RadiusUm.Measured is not null);
        (double, Figure)[] light = [.. samples.Select(s => (Place(s), isRadius ? s.RadiusUm : s.ReflectionWidthUm))];
        (double, Figure)[] loss = inspection is { Drift: { } drift, Baseline: { } baseline }
            ? [.. Ordered(drift.EdgeLoss.Where(s => s.Part == part).Select(s => (isRound ? s.ArcMm - baseline.Outline.Apex.ArcMm : s.StationMm, s.LossUm)))]
            : [];
        XElement? lightChart = !IsWorthDrawing(light) ? null : isRadius
            ? StripChart.Draw(light, RadiusLimits(inspection, today, samples), $"{name}: radius of the edge's rounding along the edge, below the edge as photographed.", xWords, "edge radius, µm", strip)
            : StripChart.Draw(light, LightLimits(inspection, today), $"{name}: width of the line of light along the edge, below the edge as photographed.", xWords, "line of light, µm", strip);
        XElement? lossChart = !IsWorthDrawing(loss) ? null : StripChart.Draw(loss, [], $"{name}: metal lost along the edge.", xWords, "metal lost, µm");
        string[] missing = [.. light.Select(s => s.Item2.WhyMissing).OfType<string>().Distinct().Take(1).Select(why => $"the light cannot show it ({FigureText.WhyMissing(why)})")];
        if (lightChart is null && lossChart is null && missing.Length == 0) return null;
        double Place(LightSample s) => isRound ? s.ArcMm - today.Outline.Apex.ArcMm : s.StationMm;
        bool isHatched = (lightChart is not null && missing.Length > 0) || (lossChart is not null && loss.Any(s => s.Item2.Measured is null));
        return El("figure", El("h3", name), lightChart, lossChart,
            lightChart is null && missing.Length > 0 ? El("figcaption", $"No drawing of the line of light: {missing[0]}.") : null,
            isHatched ? El("figcaption", $"Hatched: {(lightChart is null ? "not seen in both photographs" : missing.FirstOrDefault("not seen in both photographs"))}.") : null);
    }

    /// <summary>Up to where the edge counts as sharp, and from where its rounding calls for work.</summary>
    /// <remarks>The sharp limit is one of the line's width; in this photograph's light it stands for the radius that shows such a line.</remarks>
    private static (double, string)[] RadiusLimits(Inspection inspection, FaceMeasurement today, LightSample[] samples)
    {
        List<(double, string)> limits = [];
        double[] perWidth = [.. samples.Where(s => s.RadiusUm.Measured is not null && s.ReflectionWidthUm.Measured is { Value: > 0 }).Select(s => s.RadiusUm.Measured!.Value.Value / s.ReflectionWidthUm.Measured!.Value.Value).Order()];
        if (today.Light.SharpLimitUm is { } sharp && perWidth.Length > 0)
        {
            double radius = Math.Round(sharp * perWidth[perWidth.Length / 2]);
            limits.Add((radius, $"sharp below {FigureText.Limit(radius, "µm")}"));
        }
        if (inspection.Verdict.Checks.FirstOrDefault(c => c.What == CheckedFigure.EdgeRadius) is { } check) limits.Add((check.Limit, $"resharpen above {FigureText.Limit(check.Limit, "µm")}"));
        return [.. limits];
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
