using System.Collections.Immutable;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Rim;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Cli.Inspecting;

/// <summary>Measures the photographs of a working end, compares each day with its as-new one and judges it.</summary>
/// <param name="reader">Measures photographs.</param>
/// <param name="policy">Whose limits.</param>
/// <param name="progress">Told the path of each photograph before it is measured.</param>
public sealed class WorkingEndInspector(FaceReader reader, Policy policy, Action<string> progress)
{
    /// <summary>The as-new day first, then the others, each compared with it.</summary>
    /// <param name="end">Photographs by day.</param>
    /// <returns>In the order of the list.</returns>
    public ImmutableArray<InspectedDay> Inspect(ListedWorkingEnd end)
    {
        ListedInspection? asNew = end.Inspections.FirstOrDefault(d => d.IsAsNew);
        FaceReading? baseline = asNew is null ? null : Read(end, asNew, null);
        return
        [
            .. from day in end.Inspections
               select ReferenceEquals(day, asNew) ? Judge(end, day, baseline, null, null) : Judge(end, day, Read(end, day, baseline?.Face?.Measurement), baseline, asNew?.Date),
        ];
    }

    /// <summary>The day's face view; null when it has none.</summary>
    private FaceReading? Read(ListedWorkingEnd end, ListedInspection day, FaceMeasurement? baseline)
    {
        if (day.Photographs.FirstOrDefault(p => p.View == View.Face) is not { } photograph) return null;
        progress(photograph.Path);
        return reader.Read(photograph.Path, end.Family, photograph.Print, photograph.HeightOverCardMm, baseline);
    }

    private InspectedDay Judge(ListedWorkingEnd end, ListedInspection day, FaceReading? today, FaceReading? baseline, DateOnly? baselineDate)
    {
        Refusal? missing = today is null ? new("no-face-view", "This inspection has no face view.", "Photograph the working end from square above its face.") : today.Refusal;
        DriftMeasurement? drift = null;
        Refusal? incomparable = null;
        today?.Face?.Drift?.TryGet(out drift, out incomparable);
        ImmutableArray<InspectionRefusal> refusals =
        [
            .. Refused(RefusedSubject.TodayFaceView, today, missing), .. Refused(RefusedSubject.BaselineFaceView, baseline, baseline?.Refusal), .. Refused(RefusedSubject.Comparison, null, incomparable),
        ];
        ImmutableArray<PhotographNotMeasured> notMeasured = NotMeasured(day);
        Verdict verdict = today?.Face is { } face
            ? VerdictDecider.Decide(face.Measurement, drift, policy, end.WorkingEdge, day.IsAsNew)
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
            Today = today?.Face?.Measurement,
            Baseline = baseline?.Face?.Measurement,
            BaselineDate = baselineDate,
            Drift = drift,
            Refusals = refusals,
            Verdict = verdict with { Remarks = [.. verdict.Remarks, .. notMeasured.Select(n => n.Why)] },
        };
        ExitCode code = refusals.Length == 0 ? ExitCode.Done : (ExitCode)Math.Max((int)ExitCode.Refused, (int)(today?.Code ?? ExitCode.Done));
        return new(inspection, today?.Picture, notMeasured, code);
    }

    private static IEnumerable<InspectionRefusal> Refused(RefusedSubject subject, FaceReading? reading, Refusal? refusal) =>
        refusal is null ? [] : [new(subject, reading is null ? null : Path.GetFileName(reading.Path), refusal)];

    /// <summary>Everything but the first face view. Toe and side views get their place here when they are measured.</summary>
    private static ImmutableArray<PhotographNotMeasured> NotMeasured(ListedInspection day)
    {
        ListedPhotograph? used = day.Photographs.FirstOrDefault(p => p.View == View.Face);
        return [.. day.Photographs.Where(p => !ReferenceEquals(p, used)).Select(p => new PhotographNotMeasured(Path.GetFileName(p.Path), p.View, Why(p)))];
    }

    private static string Why(ListedPhotograph photograph)
    {
        string file = Path.GetFileName(photograph.Path);
        return photograph.View switch
        {
            View.Face => $"A second face view ({file}) was left out: one is used for each day.",
            View.Toe => $"The toe view ({file}) is not measured yet: face and internal angles are not judged.",
            _ => $"The side view ({file}) is not measured yet: wedge angle and tip thickness are not judged.",
        };
    }
}
