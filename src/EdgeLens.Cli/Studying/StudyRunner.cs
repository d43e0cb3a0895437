using System.Collections.Immutable;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Studies;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;

namespace EdgeLens.Cli.Studying;

/// <summary>Measures the photographs of a study.</summary>
/// <param name="reader">Measures photographs.</param>
/// <param name="progress">Told the path of each photograph before it is measured.</param>
public sealed class StudyRunner(ViewReader reader, Action<string> progress)
{
    /// <summary>
    /// Every face view with a person's name is one reading. What they are compared with is the as-new photograph of the working end or, without one, the first
    /// that can be measured: that one is then no reading.
    /// </summary>
    /// <param name="folder">As its index lists it (docs/study.md).</param>
    /// <returns>What was measured, and what was refused with the reason.</returns>
    public (ImmutableArray<StudyPhotograph> Measured, ImmutableArray<(string FileName, string Reason)> Refused) Run(ListedFolder folder)
    {
        List<StudyPhotograph> measured = [];
        List<(string, string)> refused = [];
        foreach (ListedWorkingEnd end in folder.WorkingEnds)
        {
            string thing = FormattableString.Invariant($"{end.InstrumentId} end {end.WorkingEnd}");
            ListedPhotograph? asNew = end.Inspections.FirstOrDefault(d => d.IsAsNew)?.Photographs.FirstOrDefault(p => p.View is null or PhotographView.Face);
            FaceMeasurement? baseline = asNew is null ? null : Read(end, asNew, null)?.Face?.Measurement;
            foreach (ListedPhotograph photograph in end.Inspections.Where(d => !d.IsAsNew).SelectMany(d => d.Photographs).Where(p => p.View is null or PhotographView.Face && p.TakenBy is not null))
            {
                if (Read(end, photograph, baseline) is not { Face: { } face }) continue;
                if (baseline is null)
                {
                    baseline = face.Measurement;
                    continue;
                }
                DriftMeasurement? drift = null;
                if (face.Drift is { } compared && !compared.TryGet(out drift, out var why)) refused.Add((Path.GetFileName(photograph.Path), why.Reason));
                measured.Add(new(thing, photograph.TakenBy!, end.WorkingEdge, face.Measurement, drift));
            }
        }
        return ([.. measured], [.. refused]);

        ViewReading? Read(ListedWorkingEnd end, ListedPhotograph photograph, FaceMeasurement? baseline)
        {
            progress(photograph.Path);
            ViewReading reading = reader.Read(photograph, end.Family, baseline);
            if (reading.Refusal is not { } refusal) return reading;
            refused.Add((Path.GetFileName(photograph.Path), refusal.Reason));
            return null;
        }
    }
}
