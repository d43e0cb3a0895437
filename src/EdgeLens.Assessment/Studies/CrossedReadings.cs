using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Studies;

/// <summary>Several people measure the same things, each the same number of times: a crossed, balanced study.</summary>
/// <param name="Things">What was measured (working ends), in order.</param>
/// <param name="People">Who measured, in order.</param>
/// <param name="Trials">How often each person measured each thing; at least 2.</param>
/// <param name="Values">Thing by thing, person by person, trial by trial.</param>
public sealed record CrossedReadings(ImmutableArray<string> Things, ImmutableArray<string> People, int Trials, ImmutableArray<double> Values)
{
    /// <summary>One reading.</summary>
    public double At(int thing, int person, int trial) => Values[(thing * People.Length + person) * Trials + trial];

    /// <summary>Makes a balanced study from single readings.</summary>
    /// <param name="readings">In the order of taking. Readings beyond the number that every person has of every thing are left out, the last ones first.</param>
    /// <returns>The study, or the refusal <c>study-too-small</c>: fewer than 2 things, 2 people or 2 readings of each.</returns>
    public static Outcome<CrossedReadings> Of(ImmutableArray<(string Thing, string Person, double Value)> readings)
    {
        ImmutableArray<string> things = [.. readings.Select(r => r.Thing).Distinct(StringComparer.Ordinal)], people = [.. readings.Select(r => r.Person).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        if (things.Length < 2) return TooSmall("working ends", things.Length);
        if (people.Length < 2) return TooSmall("people", people.Length);
        ILookup<(string, string), double> cells = readings.ToLookup(r => (r.Thing, r.Person), r => r.Value);
        int trials = things.SelectMany(t => people.Select(p => cells[(t, p)].Count())).Min();
        if (trials < 2) return TooSmall("photographs by each person of each working end", trials);
        return new CrossedReadings(things, people, trials, [.. things.SelectMany(t => people.SelectMany(p => cells[(t, p)].Take(trials)))]);
    }

    private static Refusal TooSmall(string what, int found) => new(
        "study-too-small", $"The study has too few {what} that could be measured.", "Let at least two people photograph at least two working ends at least twice each; three, ten and three give a sure answer.", found, 2, what);
}
