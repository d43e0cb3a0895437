using System.Xml.Linq;
using EdgeLens.Assessment.Decision;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>What to do, why, and what next: the part that must be enough for a reader in a hurry.</summary>
internal static class VerdictSection
{
    public static XElement Build(Verdict verdict) => El($"section.verdict {verdict.KindName}",
        El("h2", Sign(verdict.Kind), El("span", verdict.Headline)),
        El("div.columns",
            El("div", El("h3", "Why"), El("ul", verdict.Reasons.Select(r => El("li." + Weight(r, verdict), r.Words))), verdict.Remarks.Select(r => El("p.remark", r))),
            El("div", El("h3", "What next"), El("ol", verdict.NextSteps.Select(s => El("li", s))))));

    private static string Weight(VerdictReason reason, Verdict verdict) => reason.Check is { IsExceeded: false } && verdict.Kind != VerdictKind.Keep ? "open" : "decides";

    /// <summary>A sign for each verdict, told apart by its shape: an edge kept whole, one stroke on it, three strokes, a barred one, a picture frame.</summary>
    internal static XElement Sign(VerdictKind kind)
    {
        string strokes = kind switch
        {
            VerdictKind.Keep => "M8 34H40M14 22l7 7 13-15",
            VerdictKind.TouchUp => "M8 34H40M18 27L32 13",
            VerdictKind.Resharpen => "M8 34H40M10 27L20 13M20 27L30 13M30 27L40 13",
            VerdictKind.Retire => "M8 34H40M12 12L36 28M36 12L12 28",
            _ => "M10 18V10H18M30 10H38V18M38 30V38H30M18 38H10V30M24 18V30M18 24H30",
        };
        return El("svg.sign", Attr("viewBox", "0 0 48 48"), Attr("aria-hidden", "true"), El("path", Attr("d", strokes)));
    }
}
