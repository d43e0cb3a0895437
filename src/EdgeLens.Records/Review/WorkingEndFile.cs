using System.Collections.Immutable;
using EdgeLens.Assessment.Trend;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Sharpening;
using EdgeLens.Records.Uses;

namespace EdgeLens.Records.Review;

/// <summary>All that the book knows of one working end.</summary>
/// <param name="Instrument">Its instrument.</param>
/// <param name="End">The end.</param>
/// <param name="State">Where the instrument is in its life.</param>
/// <param name="StateSince">Since when and why; null: in use from the beginning.</param>
/// <param name="Cassette">Where it lies; null: in none.</param>
/// <param name="Inspections">One for each occasion, measured last, in order of time.</param>
/// <param name="Figures">The figures that were asked for, of every version.</param>
/// <param name="Sharpenings">In order of time.</param>
/// <param name="RodTests">In order of time.</param>
/// <param name="Procedures">In which the instrument was used, in order of time.</param>
/// <param name="SignOffs">On its inspections, in order of entry.</param>
public sealed record WorkingEndFile(
    Instrument Instrument, WorkingEnd End, InstrumentState State, StateChange? StateSince, string? Cassette, ImmutableArray<InspectionEntry> Inspections, ImmutableArray<DatedFigure> Figures,
    ImmutableArray<SharpeningRow> Sharpenings, ImmutableArray<RodTest> RodTests, ImmutableArray<Procedure> Procedures, ImmutableArray<SignOff> SignOffs)
{
    /// <summary>"C-07 end 1".</summary>
    public string Name => FormattableString.Invariant($"{Instrument.Code} end {End.End}");

    /// <summary>The inspection that later ones are compared with: the last as-new one.</summary>
    public InspectionEntry? AsNew => Inspections.LastOrDefault(i => i.IsAsNew);

    /// <summary>The last inspection; null when there is none.</summary>
    public InspectionEntry? Latest => Inspections.IsEmpty ? null : Inspections[^1];

    /// <summary>Sharpenings after the last inspection: its verdict is then of the past.</summary>
    public int SharpeningsSinceLatest => Latest is { } latest ? Sharpenings.Count(s => s.When >= latest.When) : Sharpenings.Length;

    internal ImmutableArray<UseEntry> UsesSince(DateTime asNew) => [.. Procedures.Select(p => new UseEntry(p.Day.ToDateTime(TimeOnly.MinValue), p.LightCases, p.HeavyCases)).Where(u => u.When >= asNew.Date)];

    internal ImmutableArray<SharpeningEntry> SharpeningsSince(DateTime asNew) => [.. Sharpenings.Where(s => s.When >= asNew).Select(s => new SharpeningEntry(s.When, s.SharpenedBy))];
}
