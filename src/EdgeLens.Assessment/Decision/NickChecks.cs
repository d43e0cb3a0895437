using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;

namespace EdgeLens.Assessment.Decision;

/// <summary>Holds the nicks in the cutting edges against the limits; nicks elsewhere do not count.</summary>
internal static class NickChecks
{
    public static IEnumerable<LimitCheck[]> Of(FaceMeasurement today, CuttingParts parts, PolicyLimits limits) => today.Nicks
        .Where(n => parts.Judged.Contains(n.Part))
        .OrderByDescending(n => n.DepthUm.Value)
        .Select(n => LightChecks.Series(CheckedFigure.NickDepth, n.DepthUm, n.Part, [new(n.StationMm, n.StationMm)],
            (LimitRole.TouchUp, limits.NickTouchUpUm), (LimitRole.Resharpen, limits.NickResharpenUm)));
}
