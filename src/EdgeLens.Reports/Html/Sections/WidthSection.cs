using System.Xml.Linq;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>Width at each station, today and when new.</summary>
internal static class WidthSection
{
    public static XElement? Build(Inspection inspection)
    {
        if (inspection.Today is not { Widths.IsEmpty: false } today) return null;
        string end = PlaceText.EndOf(inspection.Family);
        Dictionary<double, Measured> asNew = Widths(inspection.Baseline);
        Dictionary<double, Measured> now = Widths(today);
        Dictionary<double, StationWidthLoss> losses = inspection.Drift?.WidthLosses.ToDictionary(w => Math.Round(w.StationMm, 3)) ?? [];
        bool isCompared = losses.Count > 0;
        return El("section",
            El("h2", "Width at each station"),
            El("p.lead", $"Stations are counted from the {end} {(inspection.Baseline is null ? "of today" : "as it was when new")}, so that a station means the same steel for ever. ",
                isCompared ? "A loss is surer than the two widths it comes from: much of their uncertainty is common to both." : ""),
            El("table.widths",
                El("thead", El("tr", El("th", $"mm from {end}"), isCompared ? El("th", "New, mm") : null, El("th", "Today, mm"), isCompared ? new object[] { El("th", "Lost, µm"), El("th", "Lost, %") } : null)),
                El("tbody", asNew.Keys.Union(now.Keys).Order().Select(s => El("tr",
                    El("th", Attr("scope", "row"), FigureText.Number(s, 1)),
                    isCompared ? El("td", Text(asNew, s)) : null,
                    El("td", Text(now, s)),
                    isCompared ? new object[] { El("td", losses.TryGetValue(s, out StationWidthLoss l) ? Text(l.LossUm, 1) : "–"), El("td", losses.TryGetValue(s, out l) ? Text(l.LossPercent, 1) : "–") } : null)))));
    }

    private static Dictionary<double, Measured> Widths(FaceMeasurement? face) => face?.Widths.ToDictionary(w => Math.Round(w.StationMm, 3), w => w.WidthMm) ?? [];

    private static string Text(Dictionary<double, Measured> widths, double station) => widths.TryGetValue(station, out Measured w) ? Text(w, 3) : "–";

    private static string Text(Measured figure, int decimals) => FigureText.WithUncertainty(figure, "", decimals);
}
