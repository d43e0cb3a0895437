using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Sharpening;

/// <summary>The stone's plan of one edge of a working end.</summary>
/// <param name="Edge">Left or right; the toe stands for the tip arc of a luxator or elevator.</param>
/// <param name="FromFamily">True where the angle to restore is the family's own, because no as-new photograph tells it.</param>
/// <param name="Plan">Null where today's angle is missing.</param>
/// <param name="WhyMissing">Why; null where there is a plan.</param>
public sealed record EdgeStonePlan(EdgePart Edge, bool FromFamily, StonePlan? Plan, string? WhyMissing)
{
    /// <summary>Plans every edge that the view shows.</summary>
    /// <param name="today">Toe or side view of today.</param>
    /// <param name="baseline">As-new; null where there is none. Its missing angles are replaced by the family's.</param>
    public static ImmutableArray<EdgeStonePlan> For(AngleMeasurement today, AngleMeasurement? baseline)
    {
        ArgumentNullException.ThrowIfNull(today);
        FamilyTraits family = FamilyTraits.Of(today.Family);
        return today.View == PhotographView.Side
            ? [One(EdgePart.Toe, today.WedgeAngleDeg, baseline?.WedgeAngleDeg, today.LeftSection)]
            : [One(EdgePart.Left, today.InternalAngleLeftDeg, baseline?.InternalAngleLeftDeg, today.LeftSection), One(EdgePart.Right, today.InternalAngleRightDeg, baseline?.InternalAngleRightDeg, today.RightSection)];

        EdgeStonePlan One(EdgePart edge, Figure now, Figure? then, SectionProfile? section)
        {
            Measured? asNew = then?.Measured;
            return now.Measured is { } angle
                ? new(edge, asNew is null, StonePlan.For(asNew ?? family.EdgeAngleDeg, angle, section) with { SecondBevel = today.SecondBevel.IsThere == true ? today.SecondBevel : null }, null)
                : new(edge, asNew is null, null, now.WhyMissing);
        }
    }
}
