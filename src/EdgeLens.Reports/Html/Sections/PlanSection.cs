using System.Xml.Linq;
using EdgeLens.Assessment.Inspections;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>The work at the bench, in order.</summary>
internal static class PlanSection
{
    /// <summary>Null when nothing is to be ground.</summary>
    public static XElement? Build(Inspection inspection) => inspection.SharpeningPlan is not { } plan
        ? null
        : El("section.plan",
            El("h2", "At the bench"),
            El("p.lead", "Strokes and order are common practice; the maker's instructions come first."),
            El("ol", plan.Before.Select(t => El("li", t)), plan.Steps.Select(s => El("li", s.Words)), plan.After.Select(t => El("li", t))));
}
