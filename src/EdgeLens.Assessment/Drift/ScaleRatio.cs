using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Drift;

/// <summary>What is not known of the ratio of two photographs' scales, beforehand: relative standard uncertainties.</summary>
/// <remarks>
/// Correlations, JCGM 100:2008, 5.2: two photographs of the same print have the same error of the print, which cancels in the ratio. The lens is taken as independent even where
/// both have one profile, because refocusing moves the focal length from photograph to photograph by more than the profile leaves unknown.
/// </remarks>
public static class ScaleRatio
{
    /// <summary>Its parts, the as-new photograph's first.</summary>
    public static IEnumerable<UncertaintyContribution> Of(ScaleSummary baseline, ScaleSummary today)
    {
        ArgumentNullException.ThrowIfNull(baseline);
        ArgumentNullException.ThrowIfNull(today);
        bool isSamePrint = baseline.Parts?.PrintName is { } print && print == today.Parts?.PrintName;
        return [.. Of(baseline, "as-new", ContributionOrigin.AsNew, isSamePrint), .. Of(today, "today's", ContributionOrigin.Today, isSamePrint)];
    }

    /// <summary>All together.</summary>
    public static double StandardUncertainty(ScaleSummary baseline, ScaleSummary today) => Quadrature.Sum([.. Of(baseline, today).Select(c => c.InFigure)]);

    private static IEnumerable<UncertaintyContribution> Of(ScaleSummary scale, string which, ContributionOrigin origin, bool isSamePrint)
    {
        bool isToday = origin == ContributionOrigin.Today;
        if (scale.Parts is not { } parts)
        {
            yield return new($"scale of the {which} photograph against the other", scale.RelativeStandardUncertainty) { Origin = origin, Remedy = isToday ? ContributionRemedy.KnownHeight : ContributionRemedy.None };
            yield break;
        }
        yield return Part("corners", parts.Corners, ContributionRemedy.AnotherPhotograph);
        if (!isSamePrint) yield return Part("print", parts.Print, ContributionRemedy.MeasuredCard);
        yield return Part("lens", parts.Lens, ContributionRemedy.LensProfile);
        yield return Part("height of the face", parts.Height, ContributionRemedy.KnownHeight);

        // What the as-new photograph left unknown can't be made up for later, but for the print, which is still there to be measured.
        UncertaintyContribution Part(string name, double u, ContributionRemedy remedy) =>
            new($"scale of the {which} photograph: {name}", u) { Origin = origin, Remedy = isToday || remedy == ContributionRemedy.MeasuredCard ? remedy : ContributionRemedy.None };
    }
}
