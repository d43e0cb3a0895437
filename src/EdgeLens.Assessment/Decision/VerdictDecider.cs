using System.Collections.Immutable;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Decision;

/// <summary>
/// From figures to a verdict. The most severe consequence whose limit is <b>clear</b> exceeded holds: retire, resharpen, touch up. If there is none,
/// the working end is kept only when everything that could call for sharpening is shown to be inside its limit; otherwise another photograph is
/// wanted. A loss too near to its limit never retires an instrument and does not stop it being kept: it is reported with what would decide it.
/// </summary>
public static class VerdictDecider
{
    /// <summary>Judges a working end.</summary>
    /// <param name="today">Today's face view.</param>
    /// <param name="drift">Against the as-new baseline; null when there is none: then light and nicks alone are judged, and the verdict says so.</param>
    /// <param name="policy">Whose limits.</param>
    /// <param name="workingEdge">For an area-specific curette: the edge that cuts on this end, if known. If not, both are judged and the verdict says so.</param>
    /// <param name="angles">Angles against as-new; null where a toe or side view is missing: then angles are not judged.</param>
    /// <param name="isAsNew">These are the photographs that later ones will be compared with: there is no drift to miss.</param>
    public static Verdict Decide(FaceMeasurement today, DriftMeasurement? drift, Policy policy, EdgePart? workingEdge = null, bool isAsNew = false, AngleDrift? angles = null)
    {
        PolicyLimits limits = policy.For(today.Family);
        CuttingParts parts = CuttingParts.Of(today.Family, workingEdge);
        LimitCheck[][] series =
        [
            .. LightChecks.Of(today, parts, limits),
            .. NickChecks.Of(today, parts, limits),
            .. drift is null ? [] : WearChecks.Of(drift, limits),
            .. angles is null ? [] : AngleChecks.Of(angles, parts, limits),
        ];
        LimitCheck[] checks = [.. series.SelectMany(s => s)];
        LimitCheck[] openWork = [.. checks.Where(c => c.IsOpen && c.IsOfSharpness && c.Role is LimitRole.TouchUp or LimitRole.Resharpen)];
        VerdictKind kind = KindOf(checks, openWork);
        string edges = PlaceText.Edges([.. checks.Where(c => c.IsExceeded && KindOf(c.Role) == kind && c.Part is not null).Select(c => c.Part!.Value).Distinct().Order()], today.Family);
        return new(
            kind,
            Headline(kind, edges, isWatched: checks.Any(c => c.IsExceeded && c.Role == LimitRole.Watch)),
            [.. Finding.Of(series, kind).Select(f => new VerdictReason(ReasonWords.Of(f, today.Family, parts.IsWorkingEdgeAssumed), f.Main, f.Open))],
            Remarks(today, drift, parts, checks, isAsNew),
            NextSteps.For(kind, edges, today.Family, openWork),
            [.. checks],
            policy.Name);
    }

    /// <summary>The verdict on photographs that could not be measured.</summary>
    /// <param name="refusals">At least one.</param>
    /// <param name="policy">Named in the report all the same.</param>
    /// <exception cref="ArgumentException">There is no refusal.</exception>
    public static Verdict Refused(ImmutableArray<Refusal> refusals, Policy policy)
    {
        if (refusals.IsDefaultOrEmpty) throw new ArgumentException("A refused photograph needs its refusal.", nameof(refusals));
        return new(
            VerdictKind.Retake, Headline(VerdictKind.Retake, "", false), [.. refusals.Select(r => new VerdictReason(WordsOf(r), null))],
            [], [.. refusals.Select(r => r.Advice).Distinct()], [], policy.Name);
    }

    private static string WordsOf(Refusal r) => r is { Figure: { } figure, Limit: { } limit }
        ? $"{r.Reason.TrimEnd('.')}: measured {FigureText.Limit(figure, r.Unit ?? "").TrimEnd()}, limit {FigureText.Limit(limit, r.Unit ?? "").TrimEnd()}."
        : r.Reason;

    private static VerdictKind KindOf(LimitCheck[] checks, LimitCheck[] openWork)
    {
        VerdictKind clear = checks.Where(c => c.IsExceeded).Select(c => KindOf(c.Role)).DefaultIfEmpty(VerdictKind.Keep).Max();
        return clear == VerdictKind.Keep && openWork.Length > 0 ? VerdictKind.Retake : clear;
    }

    private static VerdictKind KindOf(LimitRole role) => role switch
    {
        LimitRole.Watch => VerdictKind.Keep,
        LimitRole.TouchUp => VerdictKind.TouchUp,
        LimitRole.Resharpen => VerdictKind.Resharpen,
        _ => VerdictKind.Retire,
    };

    private static string Headline(VerdictKind kind, string edges, bool isWatched) => kind switch
    {
        VerdictKind.Keep => isWatched ? "Keep in use and watch the wear" : "Keep in use",
        VerdictKind.TouchUp => $"Touch up {edges}",
        VerdictKind.Resharpen => $"Resharpen {edges}",
        VerdictKind.Retire => "Retire this working end",
        _ => "Take another photograph",
    };

    private static ImmutableArray<string> Remarks(FaceMeasurement today, DriftMeasurement? drift, CuttingParts parts, LimitCheck[] checks, bool isAsNew)
    {
        List<string> remarks = [];
        if (isAsNew) remarks.Add("This is the as-new photograph: the verdict rests on light and nicks, and later photographs are compared with it.");
        else if (drift is null) remarks.Add("There is no as-new photograph of this working end to compare with: the verdict rests on light and nicks alone and cannot say how much metal is gone.");
        if (parts.IsWorkingEdgeAssumed)
            remarks.Add("An area-specific curette works with one edge on each end. Which one was not stated, so both are judged: what is said of the other edge does not matter.");
        if (FamilyTraits.Of(today.Family) is { TipCuts: false, HasPointedTip: false } && !checks.Any(c => c.Part == EdgePart.Toe && c.What == CheckedFigure.ReflectingFraction))
            remarks.Add("The light does not show the edge round the toe; the verdict rests on the edges beside it. A panel ahead of the toe would show it.");
        if (today.Family == InstrumentFamily.WingedElevator) remarks.Add("The fronts of the wings are not judged yet: look at them under the same light.");
        if (checks.Any(c => c is { What: CheckedFigure.LengthLoss, Role: LimitRole.Retire, IsExceeded: true }))
            remarks.Add("Common practice knows no limit for lost length: the limit is the policy's, and a practice sets its own.");
        return [.. remarks];
    }
}
