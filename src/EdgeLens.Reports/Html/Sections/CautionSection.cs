using System.Collections.Immutable;
using System.Xml.Linq;
using EdgeLens.Assessment.Inspections;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>What the reader must know before acting, and what made the report.</summary>
internal static class CautionSection
{
    /// <summary>Before anybody acts on any report.</summary>
    public static ImmutableArray<string> Cautions { get; } =
    [
        "Working ends are sharps, also when this report calls them dull. Clean and sterilise the instrument before you handle or sharpen it, and again before it goes back to a patient.",
        "Wear eye protection when you sharpen or test an edge; grinding throws off particles.",
        "The maker's instructions, your local rules and the judgement of the licensed professional come before this report.",
        "EdgeLens is an aid to looking and not a medical device. It does not see cracks, loose tips or dirt, and says nothing about sterility.",
    ];

    public static XElement Build(Inspection inspection, ReportContext context) => El("section.cautions",
        El("h2", "Before you act"),
        El("ul", Cautions.Select(c => El("li", c))),
        El("footer",
            El("span", $"EdgeLens {context.ProgramVersion}"),
            El("span", "policy: ", UserText(inspection.Verdict.PolicyName)),
            inspection.Today is { } today ? El("span", "photograph SHA-256: ", El("code", today.Photograph.Sha256)) : null,
            context.IsRenderedDemo ? El("span", "demonstration with rendered photographs") : null));
}
