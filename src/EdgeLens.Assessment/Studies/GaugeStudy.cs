using System.Collections.Immutable;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Assessment.Trend;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Studies;

/// <summary>One photograph of a study, measured.</summary>
/// <param name="Thing">Which working end, in words: "C-07 end 1".</param>
/// <param name="Person">Who took it: initials or staff code.</param>
/// <param name="WorkingEdge">For an area-specific curette, if known.</param>
/// <param name="Face">The measurement.</param>
/// <param name="Drift">Against the photograph that all of this working end are compared with; null where the two could not be compared.</param>
public sealed record StudyPhotograph(string Thing, string Person, EdgePart? WorkingEdge, FaceMeasurement Face, DriftMeasurement? Drift);

/// <summary>What a practice's photographs can show, figure by figure.</summary>
/// <param name="Verdicts">One for each figure that the study is large enough for.</param>
/// <param name="Missing">Figures that it is not, each with the reason.</param>
public sealed record GaugeStudy(ImmutableArray<GaugeVerdict> Verdicts, ImmutableArray<(string Name, string Why)> Missing)
{
    /// <summary>Analyses a study.</summary>
    /// <param name="photographs">In the order of taking. A working end that somebody has not photographed twice is left out of the figures that lack.</param>
    /// <param name="policy">Whose limits the figures are held against.</param>
    /// <returns>The study, or the refusal <c>study-too-small</c> when no figure has 2 working ends, 2 people and 2 photographs of each.</returns>
    /// <remarks>
    /// The losses are against one photograph of each working end: its error is the same in all readings, so that it counts as a difference between working
    /// ends and not against the gauge. The smallest change seen (√2 of a reading's scatter) puts a second photograph's error back.
    /// </remarks>
    public static Outcome<GaugeStudy> Of(ImmutableArray<StudyPhotograph> photographs, Policy policy)
    {
        ArgumentNullException.ThrowIfNull(policy);
        string[] names = [.. photographs.SelectMany(p => Readings(p, policy)).Select(r => r.Name).Distinct()];
        List<GaugeVerdict> verdicts = [];
        List<(string, string)> missing = [];
        Refusal? first = null;
        foreach (string name in names)
        {
            (StudyPhotograph Photograph, Reading Reading)[] all = [.. photographs.SelectMany(p => Readings(p, policy).Where(r => r.Name == name && r.Figure.Measured is not null).Select(r => (p, r)))];
            string[] people = [.. photographs.Select(p => p.Person).Distinct()];
            HashSet<string> whole = [.. all.GroupBy(r => r.Photograph.Thing).Where(g => people.All(p => g.Count(r => r.Photograph.Person == p) >= 2)).Select(g => g.Key)];
            (StudyPhotograph Photograph, Reading Reading)[] used = [.. all.Where(r => whole.Contains(r.Photograph.Thing))];
            if (!CrossedReadings.Of([.. used.Select(r => (r.Photograph.Thing, r.Photograph.Person, r.Reading.Figure.Measured!.Value.Value))]).TryGet(out CrossedReadings? crossed, out Refusal? refusal))
            {
                missing.Add((name, FigureText.WhyMissing(all.Length == 0 ? photographs.SelectMany(p => Readings(p, policy)).First(r => r.Name == name).Figure.WhyMissing : refusal.Reason)));
                first ??= refusal;
                continue;
            }
            double stated = Math.Sqrt(used.Average(r => Math.Pow(r.Reading.Figure.Measured!.Value.StandardUncertainty, 2) - Math.Pow(r.Reading.Shared, 2)));
            verdicts.Add(new(name, used[0].Reading.Unit, GaugeAnova.Of(crossed), used.Min(r => r.Reading.Limit), stated));
        }
        if (verdicts.Count == 0) return first ?? new Refusal("study-too-small", "The study has no photograph that could be measured.", "Let at least two people photograph at least two working ends at least twice each.", 0, 8, "photographs");
        return new GaugeStudy([.. verdicts], [.. missing]);
    }

    private sealed record Reading(string Name, string Unit, Figure Figure, double Shared, double? Limit);

    private static IEnumerable<Reading> Readings(StudyPhotograph photograph, Policy policy)
    {
        PolicyLimits limits = policy.For(photograph.Face.Family);
        FamilyTraits traits = FamilyTraits.Of(photograph.Face.Family);
        if (photograph.Drift is { } drift)
            foreach (WearReading r in WearReading.Of(drift, limits))
                yield return new(r.Measure.Name, r.Measure.Unit, r.Loss, r.SharedStandardUncertainty, r.WatchLimit ?? r.RetireLimit);
        if (!traits.TipCuts && !traits.HasPointedTip) yield return new("toeRadiusUm", "µm", photograph.Face.ToeRadiusUm, 0, null);
        if (traits.HasPointedTip) yield return new("tipWidthUm", "µm", photograph.Face.TipWidthUm, 0, null);
        if (traits.TipCuts) yield return new("tipArcRadiusMm", "mm", photograph.Face.TipArcRadiusMm, 0, null);
        foreach (EdgePart part in CuttingParts.Of(photograph.Face.Family, photograph.WorkingEdge).Needed)
            if (photograph.Face.Light.Edges.FirstOrDefault(e => e.Part == part) is { } edge)
                yield return new($"reflectingFractionPercent, {PlaceText.Name(part, photograph.Face.Family)}", "%", edge.ReflectingFractionPercent, 0, limits.ReflectingResharpenPercent);
    }
}
