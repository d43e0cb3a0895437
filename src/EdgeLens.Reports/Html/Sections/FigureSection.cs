using System.Xml.Linq;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>Every figure with its uncertainty, and where it stands against its limits. On a phone each row becomes a small card.</summary>
internal static class FigureSection
{
    public static XElement? Build(Inspection inspection)
    {
        FigureRow[] rows = [.. FigureRows.Of(inspection)];
        if (rows.Length == 0) return null;
        return El("section",
            El("h2", "All figures"),
            El("p.lead", $"± is the expanded uncertainty (k = {FigureText.Number(Measured.CoverageFactor, 0)}): about 95 of 100 such intervals hold the true value. ",
                "A figure is inside or outside only when the whole interval is; otherwise it is not decidable (ISO 14253-1)."),
            El("table.figures",
                El("thead", El("tr", El("th", "Figure"), El("th", "Today"), El("th", "When new"), El("th", "Against its limits"))),
                rows.GroupBy(r => r.Group).Select(g => El("tbody",
                    El("tr.group", El("th", Attr("colspan", "4"), Attr("scope", "rowgroup"), g.Key)),
                    g.Select(Row)))));
    }

    private static XElement Row(FigureRow row) => El("tr",
        El("th", Attr("scope", "row"), row.Name, row.Where.Length == 0 ? null : El("small", " " + row.Where)),
        Cell("Today", Value(row.Today, row.Unit)),
        Cell("When new", row.AsNew switch { null => null, { Measured: null } => El("span.missing", "not measured"), { } asNew => Value(asNew, row.Unit) }),
        Cell("Limits", row.Checks.Length == 0 ? null : row.Checks.Select(c => El("div", $"{c.RoleName} above {FigureText.Limit(c.Limit, c.Unit)}: ", State(c)))));

    /// <summary>A cell; on a phone an empty one takes no line.</summary>
    private static XElement Cell(string label, object? content) => content is null ? El("td.none", "–") : El("td", Attr("data-label", label), content);

    private static object Value(Figure figure, string unit) =>
        figure.Measured is { } m ? El("span.value", FigureText.WithUncertainty(m, unit)) : El("span.missing", $"not measured: {FigureText.WhyMissing(figure.WhyMissing)}");

    private static XElement State(LimitCheck check) => check.Conformity switch
    {
        Conformity.Inside => El("span.state inside", "● inside"),
        Conformity.Outside => El("span.state outside", "▲ outside"),
        Conformity.NotDecidable => El("span.state open", "◆ not decidable"),
        _ => El("span.state open", "◇ not measured"),
    };
}
