using System.Xml.Linq;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>The other inspections of this working end, so that a reader sees how it came to today.</summary>
internal static class HistorySection
{
    public static XElement? Build(ReportContext context) => context.History.Length < 2 ? null : El("section",
        El("h2", "All inspections of this working end"),
        El("ul.history", context.History.Select(h => El("li." + h.VerdictName,
            El("span.day", HeadSection.Day(h.Date)),
            h.Href is { } href ? El("a", Attr("href", href), h.Headline) : El("strong", h.Headline, " (this report)")))));
}
