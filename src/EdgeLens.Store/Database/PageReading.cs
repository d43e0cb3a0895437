using EdgeLens.Assessment.Decision;
using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Sharpening;
using EdgeLens.Records.Uses;
using Microsoft.EntityFrameworkCore;

namespace EdgeLens.Store.Database;

/// <summary>What pages and reviews ask of a large book: answered by the database along its indexes, so that time goes with what is in use and not with all that ever was.</summary>
internal static class PageReading
{
    private static readonly VerdictKind[] AsksForSomething = [VerdictKind.TouchUp, VerdictKind.Resharpen, VerdictKind.Retire];

    public static IReadOnlyList<EndInUse> EndsInUse(BookContext context)
    {
        IQueryable<string> retired = Retired(context);
        IQueryable<Placement> placements = CurrentRows.Of<Placement>(context);
        var found =
            from end in CurrentRows.Of<WorkingEnd>(context)
            join instrument in CurrentRows.Of<Instrument>(context) on end.Instrument equals instrument.Code
            where !retired.Contains(end.Instrument)
            select new { end, instrument.Description, Cassette = placements.Where(p => p.Instrument == end.Instrument).OrderByDescending(p => p.Day).ThenByDescending(p => p.Id).Select(p => p.Cassette).FirstOrDefault() };
        return [.. found.AsEnumerable().Select(f => new EndInUse(f.end, f.Description, f.Cassette)).OrderBy(e => e.End.Instrument, StringComparer.Ordinal).ThenBy(e => e.End.End)];
    }

    public static IReadOnlyList<InspectionEntry> Undecided(BookContext context)
    {
        // In two steps: by their index the inspections of the few instruments in use are found at once; in one step a database may look through all inspections of all years.
        IQueryable<string> retired = Retired(context);
        string[] inUse = [.. CurrentRows.Of<Instrument>(context).Select(i => i.Code).Where(c => !retired.Contains(c))];
        IQueryable<InspectionEntry> inspections = CurrentRows.Of<InspectionEntry>(context);
        IQueryable<SignOff> signOffs = CurrentRows.Of<SignOff>(context);
        IQueryable<InspectionEntry> waiting =
            from i in inspections
            where inUse.Contains(i.Instrument) && !i.IsAsNew && AsksForSomething.Contains(i.Verdict)
            where !inspections.Any(later => later.Instrument == i.Instrument && later.End == i.End && later.Day >= i.Day
                && (later.Day > i.Day || (later.Time ?? TimeOnly.MinValue) > (i.Time ?? TimeOnly.MinValue) || ((later.Time ?? TimeOnly.MinValue) == (i.Time ?? TimeOnly.MinValue) && later.Id > i.Id)))
            where !signOffs.Any(s => s.Agrees != null && (s.InspectionId == i.Id || s.InspectionId == i.Remeasures))
            select i;
        return [.. waiting.AsEnumerable().OrderByDescending(i => i.Verdict).ThenBy(i => i.When).ThenBy(i => i.Id)];
    }

    public static IReadOnlyList<Procedure> ProceduresWith(BookContext context, IReadOnlyCollection<string> instruments, IReadOnlyCollection<string> cassettes)
    {
        string?[] ofInstruments = [.. instruments], ofCassettes = [.. cassettes];
        return [.. CurrentRows.Of<Procedure>(context).Where(p => ofInstruments.Contains(p.Instrument) || ofCassettes.Contains(p.Cassette)).OrderBy(p => p.Day).ThenBy(p => p.Id)];
    }

    public static StoneUse UseOf(BookContext context, string stone, DateOnly? after)
    {
        IQueryable<SharpeningRow> uses = CurrentRows.Of<SharpeningRow>(context).Where(s => s.Stone == stone);
        int? zone = uses.Where(s => s.Zone != null).OrderByDescending(s => s.Day).ThenByDescending(s => s.Time ?? TimeOnly.MinValue).ThenByDescending(s => s.Id).Select(s => s.Zone).FirstOrDefault();
        return new(zone, after is { } day ? uses.Count(s => s.Day > day) : uses.Count());
    }

    /// <summary>Instruments whose latest state is out of use for good.</summary>
    private static IQueryable<string> Retired(BookContext context)
    {
        IQueryable<StateChange> states = CurrentRows.Of<StateChange>(context);
        return states.Where(s => s.State == InstrumentState.Retired && !states.Any(later => later.Instrument == s.Instrument && (later.Day > s.Day || (later.Day == s.Day && later.Id > s.Id)))).Select(s => s.Instrument);
    }
}
