using System.Collections.Immutable;
using EdgeLens.Records.Book;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Records.Sharpening;
using EdgeLens.Records.Uses;

namespace EdgeLens.Records.Review;

/// <summary>What a report is made from: the book's rows put together by working end.</summary>
/// <param name="Practice">Null while the book has none.</param>
/// <param name="Cassettes">In order of their codes.</param>
/// <param name="WorkingEnds">In order of instrument and end.</param>
/// <param name="Stones">In order of their codes.</param>
public sealed record PracticeFile(Practice? Practice, ImmutableArray<Cassette> Cassettes, ImmutableArray<WorkingEndFile> WorkingEnds, ImmutableArray<StoneFile> Stones)
{
    /// <summary>Reads a book.</summary>
    /// <param name="book">That holds the rows.</param>
    /// <param name="figureNames">Which figures are wanted.</param>
    /// <param name="only">One instrument, retired or not; null for all.</param>
    /// <param name="withRetired">Of all instruments the retired ones too: in a book of many years they are most.</param>
    public static PracticeFile Read(IRecordBook book, IReadOnlyCollection<string> figureNames, string? only = null, bool withRetired = false)
    {
        ArgumentNullException.ThrowIfNull(book);
        IReadOnlyList<Instrument> found = only is not null ? book.Instruments(only) : withRetired ? book.Current<Instrument>() : book.Instruments([.. book.EndsInUse().Select(e => e.End.Instrument).Distinct()]);
        Instrument[] instruments = [.. found.OrderBy(i => i.Code, StringComparer.Ordinal)];
        string[] codes = [.. instruments.Select(i => i.Code)];
        IReadOnlyList<T> Rows<T>() where T : InstrumentEntry => book.CurrentOf<T>(codes);
        ILookup<string, WorkingEnd> ends = Rows<WorkingEnd>().ToLookup(e => e.Instrument);
        ILookup<string, StateChange> states = Rows<StateChange>().ToLookup(s => s.Instrument);
        ILookup<string, Placement> placements = Rows<Placement>().ToLookup(p => p.Instrument);
        IReadOnlyList<InspectionEntry> allInspections = Rows<InspectionEntry>();
        ILookup<(string, int), InspectionEntry> inspections = LatestOfOccasion(allInspections).ToLookup(i => (i.Instrument, i.End));
        ILookup<(string, int), DatedFigure> figures = book.FigureHistory(figureNames, codes).ToLookup(f => (f.Inspection.Instrument, f.Inspection.End));
        IReadOnlyList<SharpeningRow> allSharpenings = Rows<SharpeningRow>();
        ILookup<(string, int), SharpeningRow> sharpenings = allSharpenings.ToLookup(s => (s.Instrument, s.End));
        ILookup<(string, int), RodTest> rods = Rows<RodTest>().ToLookup(r => (r.Instrument, r.End));
        Dictionary<long, InspectionEntry> byId = allInspections.ToDictionary(i => i.Id);
        ILookup<(string, int), SignOff> signOffs = book.SignOffsOn([.. byId.Keys]).ToLookup(s => (byId[s.InspectionId].Instrument, byId[s.InspectionId].End));
        IReadOnlyList<Procedure> procedures = book.ProceduresWith(codes, [.. placements.SelectMany(p => p).Select(p => p.Cassette).OfType<string>().Distinct()]);

        return new(
            book.Current<Practice>().SingleOrDefault(),
            [.. book.Current<Cassette>().OrderBy(c => c.Code, StringComparer.Ordinal)],
            [
                .. from instrument in instruments
                   let own = placements[instrument.Code].OrderBy(p => p.Day).ThenBy(p => p.Id).ToArray()
                   let uses = UsesOf(instrument.Code, own, procedures)
                   let state = states[instrument.Code].OrderBy(s => s.Day).ThenBy(s => s.Id).LastOrDefault()
                   from end in ends[instrument.Code].OrderBy(e => e.End)
                   let key = (instrument.Code, end.End)
                   select new WorkingEndFile(
                       instrument, end, state?.State ?? InstrumentState.InUse, state, own.LastOrDefault()?.Cassette,
                       [.. inspections[key].OrderBy(i => i.When).ThenBy(i => i.Id)], [.. figures[key]],
                       [.. sharpenings[key].OrderBy(s => s.When).ThenBy(s => s.Id)], [.. rods[key].OrderBy(r => r.When).ThenBy(r => r.Id)], uses, [.. signOffs[key]]),
            ],
            only is null ? StoneFile.Of(book) : []);
    }

    /// <summary>Of rows about the same photographs the one that was measured last.</summary>
    private static IEnumerable<InspectionEntry> LatestOfOccasion(IEnumerable<InspectionEntry> inspections) => inspections.GroupBy(i => i.Occasion).Select(g => g.MaxBy(i => i.Id)!);

    /// <summary>Procedures that name the instrument, or the cassette in which it lay that day.</summary>
    private static ImmutableArray<Procedure> UsesOf(string instrument, Placement[] placements, IReadOnlyList<Procedure> procedures) =>
        [.. procedures.Where(p => p.Instrument is { } named ? named == instrument : placements.LastOrDefault(l => l.Day <= p.Day)?.Cassette == p.Cassette)];
}

/// <summary>A stone and its care.</summary>
/// <param name="Stone">The stone.</param>
/// <param name="NextZone">The zone to use next, so that use goes round.</param>
/// <param name="UsedSinceWiped">Sharpenings since it was last wiped.</param>
/// <param name="LastFlatnessCheck">Null: never checked.</param>
public sealed record StoneFile(Stone Stone, int NextZone, int UsedSinceWiped, StoneCare? LastFlatnessCheck)
{
    internal static ImmutableArray<StoneFile> Of(IRecordBook book)
    {
        ILookup<string, StoneCare> care = book.Current<StoneCare>().ToLookup(c => c.Stone);
        return
        [
            .. from stone in book.Current<Stone>().OrderBy(s => s.Code, StringComparer.Ordinal)
               let wiped = care[stone.Code].Where(c => c.WasWiped).MaxBy(c => c.Day)
               let flat = care[stone.Code].Where(c => c.IsFlat is not null).OrderBy(c => c.Day).ThenBy(c => c.Id).LastOrDefault()
               // Of retired instruments too: the stone was used all the same.
               let use = book.UseOf(stone.Code, wiped?.Day)
               select new StoneFile(stone, stone.NextZone(use.LastZone), use.Count, flat),
        ];
    }
}
