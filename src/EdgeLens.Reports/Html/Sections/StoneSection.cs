using System.Xml.Linq;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Sharpening;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>How to hold the stone so that each edge gets its angle back, and what that costs.</summary>
internal static class StoneSection
{
    public static XElement? Build(Inspection inspection) => inspection.StonePlans.IsEmpty ? null : El("section",
        El("h2", "The stone"),
        El("p.lead", "Angle between the stone and the face, measured outside the steel: 180° less the internal angle. A few degrees are as well as a hand holds a stone."),
        El("ul.stones", inspection.StonePlans.Select(p => El("li", El("strong", PlaceText.Sentence(PlaceText.Name(p.Edge, inspection.Family))), ": ", Words(inspection, p)))));

    private static string Words(Inspection inspection, EdgeStonePlan edge)
    {
        FamilyTraits family = FamilyTraits.Of(inspection.Family);
        if (edge.Plan is not { } plan) return $"not planned, because its angle was not measured: {FigureText.WhyMissing(edge.WhyMissing)}.";
        string target = edge.FromFamily
            ? $"hold the stone at {FigureText.Number(plan.StoneToFaceDeg.Value, 0)}° to the face, the family's nominal angle, since no as-new photograph tells this end's own. "
            : $"hold the stone at {FigureText.WithUncertainty(plan.StoneToFaceDeg, "°")} to the face, as it was when new. ";
        string turn = FigureText.WithUncertainty(new Measured(Math.Abs(plan.CorrectionDeg.Value), plan.CorrectionDeg.StandardUncertainty), "°");
        string angle = family.TipCuts ? "wedge angle" : "internal angle";
        string error = plan.Error switch
        {
            CutError.OverCut => $"Over-cut: the {angle} is {turn} too small, the edge keen but weak. {Cost(plan)}",
            CutError.UnderCut => $"Under-cut: the {angle} is {turn} too large, the edge strong but blunt. {Cost(plan)}",
            _ => $"Today's {angle} cannot be told from it: the two differ by {turn}.",
        };
        return target + error + SecondBevelText.Plan(plan.SecondBevel, plan.StoneToFaceDeg.Value);
    }

    private static string Cost(StonePlan plan) => plan.CostUm.Measured switch
    {
        null => $"What the correction costs in width is not known: {FigureText.WhyMissing(plan.CostUm.WhyMissing)}.",
        { Value: 0 } => "The correction takes steel below the edge and none of the width.",
        { } cost => $"To touch the whole surface the stone takes {FigureText.WithUncertainty(cost, "µm")} off the width on this side.",
    };
}
