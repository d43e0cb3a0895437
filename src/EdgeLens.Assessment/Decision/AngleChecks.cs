using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Decision;

/// <summary>Holds the angles' drift, either way, against the limits. An angle that is missing is not judged: it says nothing about the edge.</summary>
internal static class AngleChecks
{
    public static IEnumerable<LimitCheck[]> Of(AngleDrift drift, CuttingParts parts, PolicyLimits limits) =>
        from angle in new[]
        {
            (What: CheckedFigure.FaceAngleDrift, Drift: drift.FaceAngleDeg, Part: (EdgePart?)null),
            (CheckedFigure.InternalAngleDrift, drift.InternalAngleLeftDeg, EdgePart.Left),
            (CheckedFigure.InternalAngleDrift, drift.InternalAngleRightDeg, EdgePart.Right),
            (CheckedFigure.WedgeAngleDrift, drift.WedgeAngleDeg, EdgePart.Toe),
        }
        where angle.Part is not { } part || parts.Judged.Contains(part)
        where angle.Drift.Measured is not null
        let signed = angle.Drift.Measured!.Value
        let size = new Measured(Math.Abs(signed.Value), signed.StandardUncertainty)
        select LightChecks.Series(angle.What, size, angle.Part, [], (LimitRole.Watch, limits.AngleDriftWatchDeg), (LimitRole.Resharpen, limits.AngleDriftResharpenDeg))
            .Select(c => c with { SignedValue = signed.Value }).ToArray();
}
