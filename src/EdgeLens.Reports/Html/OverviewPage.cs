using System.Collections.Immutable;
using System.Globalization;
using System.Xml.Linq;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Wording;
using EdgeLens.Reports.Html.Sections;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html;

/// <summary>All working ends on one page, the most urgent first: what a practice opens in the morning.</summary>
public static class OverviewPage
{
    /// <summary>The page; the same text for the same input.</summary>
    /// <param name="entries">One for each working end, in any order.</param>
    /// <param name="context">What the page says about itself.</param>
    public static string ToHtml(ImmutableArray<OverviewEntry> entries, ReportContext context)
    {
        OverviewEntry[] sorted =
        [
            .. entries.OrderByDescending(e => e.Latest.Verdict.Kind).ThenBy(e => e.Latest.InstrumentId, StringComparer.Ordinal).ThenBy(e => e.Latest.WorkingEnd),
        ];
        return InspectionReport.Page("EdgeLens: all working ends", El("main",
            El("header",
                El("p.over", El("span", "Working ends, most urgent first"), context.PracticeName is { } practice ? El("span", UserText(practice)) : null),
                El("h1", "All working ends"),
                El("p.facts", Counts(sorted).Select(c => El("span", c))),
                context.IsRenderedDemo ? HeadSection.Demonstration() : null),
            El("section", El("ul.overview", sorted.Select(Row))),
            El("section.cautions", El("footer", El("span", $"EdgeLens {context.ProgramVersion}"), context.IsRenderedDemo ? El("span", "demonstration with rendered photographs") : null))));
    }

    private static IEnumerable<string> Counts(OverviewEntry[] sorted)
    {
        yield return sorted.Length == 1 ? "1 working end" : string.Create(CultureInfo.InvariantCulture, $"{sorted.Length} working ends");
        foreach (IGrouping<VerdictKind, OverviewEntry> group in sorted.GroupBy(e => e.Latest.Verdict.Kind))
            yield return string.Create(CultureInfo.InvariantCulture, $"{group.Count()} to {Words(group.Key)}");
    }

    private static string Words(VerdictKind kind) => kind switch
    {
        VerdictKind.Keep => "keep",
        VerdictKind.Retake => "photograph again",
        VerdictKind.TouchUp => "touch up",
        VerdictKind.Resharpen => "resharpen",
        _ => "retire",
    };

    private static XElement Row(OverviewEntry entry)
    {
        Inspection latest = entry.Latest;
        Verdict verdict = latest.Verdict;
        return El("li." + verdict.KindName,
            VerdictSection.Sign(verdict.Kind),
            El("div",
                El("h2", El("a", Attr("href", entry.Href), UserText(latest.InstrumentId), El("small", string.Create(CultureInfo.InvariantCulture, $" end {latest.WorkingEnd}"))), " ", El("span.headline", verdict.Headline)),
                El("p.facts", El("span", PlaceText.Sentence(FamilyTraits.Of(latest.Family).Title)), El("span", latest.IsAsNew ? "as new " : "inspected ", HeadSection.Day(latest.Date)),
                    entry.InspectionCount > 1 ? El("span", string.Create(CultureInfo.InvariantCulture, $"{entry.InspectionCount} inspections")) : null),
                verdict.Reasons.IsEmpty ? null : El("p", verdict.Reasons[0].Words)));
    }
}

/// <summary>One working end in the overview.</summary>
/// <param name="Latest">Its latest inspection.</param>
/// <param name="Href">That inspection's report, from the page's place.</param>
/// <param name="InspectionCount">How many there are of this working end.</param>
public sealed record OverviewEntry(Inspection Latest, string Href, int InspectionCount);
