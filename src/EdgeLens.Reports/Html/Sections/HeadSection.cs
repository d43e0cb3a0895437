using System.Globalization;
using System.Xml.Linq;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Wording;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>Which instrument, which end, which day.</summary>
internal static class HeadSection
{
    public static XElement Build(Inspection inspection, ReportContext context) => El("header",
        El("p.over", El("span", context.OverviewHref is { } overview ? El("a", Attr("href", overview), "All working ends") : "Working end inspection"), context.PracticeName is { } practice ? El("span", UserText(practice)) : null),
        El("h1", UserText(inspection.InstrumentId), El("small", $" end {inspection.WorkingEnd.ToString(CultureInfo.InvariantCulture)}")),
        El("p.facts",
            El("span", PlaceText.Sentence(FamilyTraits.Of(inspection.Family).Title)),
            inspection.WorkingEdge is { } edge && inspection.Family == InstrumentFamily.AreaSpecificCurette ? El("span", $"works with its {PlaceText.Name(edge, inspection.Family)}") : null,
            El("span", "inspected ", Day(inspection.Date)),
            inspection.BaselineDate is { } asNew ? El("span", "as new ", Day(asNew)) : El("span", inspection.IsAsNew ? "as new" : "no as-new photograph")),
        string.IsNullOrWhiteSpace(inspection.ConditionNote) ? null : El("p.note", "Note: ", UserText(inspection.ConditionNote)),
        context.IsRenderedDemo ? Demonstration() : null);

    internal static XElement Demonstration() =>
        El("p.demo", El("strong", "Demonstration."), " The photographs are rendered from shapes that are exactly known. They do not show real steel.");

    internal static XElement Day(DateOnly date) => El("time", Attr("datetime", DateText.Iso(date)), date.ToString("d MMMM yyyy", CultureInfo.InvariantCulture));
}
