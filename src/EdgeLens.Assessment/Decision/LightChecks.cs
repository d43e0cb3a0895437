using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Decision;

/// <summary>Holds the light on the cutting edges against the limits. Each item: one figure of one edge with its limits, the mildest first.</summary>
internal static class LightChecks
{
    public static IEnumerable<LimitCheck[]> Of(FaceMeasurement today, CuttingParts parts, PolicyLimits limits)
    {
        foreach (EdgePart part in parts.Judged)
        {
            EdgeLightSummary? edge = today.Light.Edges.FirstOrDefault(e => e.Part == part);
            bool isNeeded = parts.Needed.Contains(part);
            Figure fraction = edge is null ? Figure.Missing("its light was not measured") : SameSharpLimit(today.Light, edge.ReflectingFractionPercent, limits);
            if (fraction.Measured is null && !isNeeded) continue;
            Stretch[] dull = [.. (edge?.DullStretches ?? []).Select(d => new Stretch(d.FromStationMm, d.ToStationMm))];
            yield return Series(CheckedFigure.ReflectingFraction, fraction, part, dull,
                (LimitRole.TouchUp, limits.ReflectingTouchUpPercent), (LimitRole.Resharpen, limits.ReflectingResharpenPercent));

            // Where the fraction is missing the width is too, and one complaint about an edge is enough.
            if (fraction.Measured is null || edge?.GreatestReflectionWidthUm.Measured is not { } width) continue;
            if (edge.Radius.GreatestUm.Measured is not null)
                yield return Series(CheckedFigure.EdgeRadius, edge.Radius.GreatestUm, part, Brightest(edge), (LimitRole.Resharpen, limits.EdgeRadiusResharpenUm));
            yield return Series(CheckedFigure.GreatestReflectionWidth, width, part, Brightest(edge), (LimitRole.Resharpen, limits.ReflectionWidthResharpenUm));
        }
    }

    /// <summary>Builds the comparisons of one figure with those limits that the policy sets.</summary>
    internal static LimitCheck[] Series(CheckedFigure what, Figure figure, EdgePart? part, Stretch[] where, params ReadOnlySpan<(LimitRole Role, double? Limit)> limits)
    {
        List<LimitCheck> checks = [];
        foreach ((LimitRole role, double? limit) in limits)
            if (limit is { } l) checks.Add(new(what, figure, l, role, part, [.. where]));
        return [.. checks];
    }

    private static Stretch[] Brightest(EdgeLightSummary edge)
    {
        if (edge.DullStretches.IsEmpty) return [];
        DullStretch brightest = edge.DullStretches.MaxBy(d => d.GreatestReflectionWidthUm.Value);
        return [new(brightest.FromStationMm, brightest.ToStationMm)];
    }

    private static Figure SameSharpLimit(EdgeLight light, Figure fraction, PolicyLimits limits) => light.SharpLimitUm is { } used && used != limits.SharpLimitUm
        ? Figure.Missing(FormattableString.Invariant($"it was summed up with a sharp limit of {used} µm, the policy's is {limits.SharpLimitUm} µm: measure again with this policy"))
        : fraction;
}
