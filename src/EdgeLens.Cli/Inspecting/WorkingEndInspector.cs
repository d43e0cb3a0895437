using System.Collections.Immutable;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Assessment.Sharpening;
using EdgeLens.Assessment.Wording;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Rim;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Cli.Inspecting;

/// <summary>Measures the photographs of a working end, compares each day with its as-new one and judges it.</summary>
/// <param name="reader">Measures photographs.</param>
/// <param name="policy">Whose limits.</param>
/// <param name="progress">Told the path of each photograph before it is measured.</param>
/// <param name="kept">As-new days that were measured before; null: every one is measured.</param>
public sealed class WorkingEndInspector(ViewReader reader, Policy policy, Action<string> progress, KeptReadings? kept = null)
{
    /// <summary>The as-new day first, then the others, each compared with it.</summary>
    /// <param name="end">Photographs by day.</param>
    /// <returns>In the order of the list.</returns>
    public ImmutableArray<InspectedDay> Inspect(ListedWorkingEnd end)
    {
        ListedInspection? asNew = end.Inspections.FirstOrDefault(d => d.IsAsNew);
        DayReadings? baseline = asNew is null ? null : kept?.Of(end.Family.Family, asNew, () => Read(end, asNew, null)) ?? Read(end, asNew, null);
        return
        [
            .. from day in end.Inspections
               select ReferenceEquals(day, asNew) ? Judge(end, day, baseline!, null, null) : Judge(end, day, Read(end, day, baseline?.BaselineFace), baseline, asNew?.Date),
        ];
    }

    private DayReadings Read(ListedWorkingEnd end, ListedInspection day, FaceMeasurement? baseline) => DayReadings.Read(reader, end.Family, day, baseline, progress);

    private InspectedDay Judge(ListedWorkingEnd end, ListedInspection day, DayReadings today, DayReadings? baseline, DateOnly? baselineDate)
    {
        Refusal? missing = today.Face is null ? new("no-face-view", "This inspection has no face view.", "Photograph the working end from square above its face.") : today.Face.Refusal;
        DriftMeasurement? drift = null;
        Refusal? incomparable = null;
        today.Face?.Face?.Drift?.TryGet(out drift, out incomparable);
        AngleMeasurement? angles = today.Angles?.Angles, angleBaseline = baseline?.Angles?.Angles;
        ImmutableArray<InspectionRefusal> refusals =
        [
            .. Refused(RefusedSubject.TodayFaceView, today.Face, missing), .. Refused(RefusedSubject.BaselineFaceView, baseline?.Face, baseline?.Face?.Refusal),
            .. Refused(RefusedSubject.Comparison, null, incomparable),
            .. Refused(RefusedSubject.TodayAngleView, today.Angles, today.Angles?.Refusal), .. Refused(RefusedSubject.BaselineAngleView, baseline?.Angles, baseline?.Angles?.Refusal),
        ];
        AngleDrift? turned = null;
        if (angles is not null && angleBaseline is not null) AngleDrift.Between(angleBaseline, angles).TryGet(out turned, out _);
        ImmutableArray<EdgeStonePlan> stones = angles is null ? [] : EdgeStonePlan.For(angles, angleBaseline);
        ImmutableArray<ShapeFinding> faults = today.Face?.Face is { } shaped && drift is not null && baseline?.BaselineFace is { } asNewFace ? ShapeFindings.Of(asNewFace, shaped.Measurement, drift) : [];
        Verdict verdict = today.Face?.Face is { } face
            ? VerdictDecider.Decide(face.Measurement, drift, policy, end.WorkingEdge, day.IsAsNew, turned)
            : VerdictDecider.Refused([missing!], policy);
        Inspection inspection = new()
        {
            InstrumentId = end.InstrumentId,
            WorkingEnd = end.WorkingEnd,
            Family = end.Family.Family,
            WorkingEdge = end.WorkingEdge,
            Date = day.Date,
            IsAsNew = day.IsAsNew,
            ConditionNote = day.Note,
            Today = today.Face?.Face?.Measurement,
            Baseline = baseline?.BaselineFace,
            BaselineDate = baselineDate,
            Drift = drift,
            TodayAngles = angles,
            BaselineAngles = angleBaseline,
            AngleDrift = turned,
            StonePlans = stones,
            ShapeFindings = faults,
            SharpeningPlan = Plan(today, verdict, stones, end.WorkingEdge),
            Refusals = refusals,
            Verdict = verdict with { Remarks = [.. verdict.Remarks, .. faults.Select(f => f.Words), .. Remarks(end, angles), .. Remarks(baseline?.Average ?? today.Average), .. today.LeftOut.Select(n => n.Why)] },
        };
        ExitCode code = refusals.Length == 0 ? ExitCode.Done : (ExitCode)new[] { (int)ExitCode.Refused, (int)(today.Face?.Code ?? 0), (int)(today.Angles?.Code ?? 0) }.Max();
        return new(inspection, today.Face?.Picture, today.Angles?.AnglePictures ?? [], today.LeftOut, code);
    }

    private static SharpeningPlan? Plan(DayReadings today, Verdict verdict, ImmutableArray<EdgeStonePlan> stones, EdgePart? workingEdge)
    {
        if (today.Face?.Face is not { } face) return null;
        SharpeningPlan plan = SharpeningPlan.For(face.Measurement, verdict, stones.Where(s => s.Plan is not null).ToDictionary(s => s.Edge, s => s.Plan!), workingEdge);
        return plan.Steps.IsEmpty ? null : plan;
    }

    private static IEnumerable<string> Remarks(BaselineAverage? average)
    {
        if (average is null) yield break;
        if (average.ScatterUm.Measured is { } scatter)
            yield return FormattableString.Invariant($"The as-new outline is the mean of {average.Count} photographs, which differ by {FigureText.WithUncertainty(scatter, "µm")} (rms).");
        foreach (Refusal refusal in average.LeftOut) yield return $"An as-new photograph was left out of the mean: {refusal.Reason}";
    }

    /// <summary>The face's offset says which edge is made to cut; the user may have said another.</summary>
    private static IEnumerable<string> Remarks(ListedWorkingEnd end, AngleMeasurement? angles)
    {
        EdgePart? told = angles?.CuttingEdges switch { CuttingEdges.Left => EdgePart.Left, CuttingEdges.Right => EdgePart.Right, _ => null };
        if (told is { } seen && end.WorkingEdge is { } stated && seen != stated)
            yield return $"The {Name(stated)} edge was stated as the working edge, but the toe view shows the {Name(seen)} one lower: check which end this is.";

        static string Name(EdgePart part) => part.ToString().ToLowerInvariant();
    }

    private static IEnumerable<InspectionRefusal> Refused(RefusedSubject subject, ViewReading? reading, Refusal? refusal) =>
        refusal is null ? [] : [new(subject, reading is null ? null : Path.GetFileName(reading.Path), refusal)];
}
