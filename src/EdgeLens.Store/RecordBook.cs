using System.Collections.Immutable;
using EdgeLens.Records.Book;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Uses;
using EdgeLens.Store.Database;
using EdgeLens.Store.Photographs;
using Microsoft.EntityFrameworkCore;

namespace EdgeLens.Store;

/// <summary>A book in a database, with its photographs in a folder. Safe for several threads: each call opens its own view.</summary>
public sealed class RecordBook : IRecordBook
{
    private readonly TimeProvider _clock;

    internal RecordBook(BookDatabase database, PhotographFolder photographs, string practiceCode, TimeProvider clock) =>
        (Database, Folder, PracticeCode, _clock) = (database, photographs, practiceCode, clock);

    /// <inheritdoc />
    public string PracticeCode { get; }

    internal BookDatabase Database { get; }

    internal PhotographFolder Folder { get; }

    /// <inheritdoc />
    public IReadOnlyList<T> Current<T>() where T : Entry
    {
        using BookContext context = Database.Open(PracticeCode);
        return new CurrentRows(context).Current<T>();
    }

    /// <inheritdoc />
    public IReadOnlyList<T> CurrentOf<T>(params IReadOnlyCollection<string> instruments) where T : InstrumentEntry
    {
        string[] wanted = [.. instruments];
        using BookContext context = Database.Open(PracticeCode);
        return CurrentRows.InOrder(CurrentRows.Of<T>(context).Where(e => wanted.Contains(e.Instrument)));
    }

    /// <inheritdoc />
    public long Revision
    {
        get
        {
            using BookContext context = Database.Open(PracticeCode);
            return BookRevision.Read(context, PracticeCode);
        }
    }

    /// <inheritdoc />
    public IReadOnlyList<Instrument> Instruments(params IReadOnlyCollection<string> codes)
    {
        string[] wanted = [.. codes];
        using BookContext context = Database.Open(PracticeCode);
        return CurrentRows.InOrder(CurrentRows.Of<Instrument>(context).Where(i => wanted.Contains(i.Code)));
    }

    /// <inheritdoc />
    public IReadOnlyList<EndInUse> EndsInUse()
    {
        using BookContext context = Database.Open(PracticeCode);
        return PageReading.EndsInUse(context);
    }

    /// <inheritdoc />
    public IReadOnlyList<InspectionEntry> Undecided()
    {
        using BookContext context = Database.Open(PracticeCode);
        return PageReading.Undecided(context);
    }

    /// <inheritdoc />
    public IReadOnlyList<SignOff> SignOffsOn(params IReadOnlyCollection<long> inspections)
    {
        long[] wanted = [.. inspections];
        using BookContext context = Database.Open(PracticeCode);
        return CurrentRows.InOrder(CurrentRows.Of<SignOff>(context).Where(s => wanted.Contains(s.InspectionId)));
    }

    /// <inheritdoc />
    public IReadOnlyList<Procedure> ProceduresWith(IReadOnlyCollection<string> instruments, IReadOnlyCollection<string> cassettes)
    {
        using BookContext context = Database.Open(PracticeCode);
        return PageReading.ProceduresWith(context, instruments, cassettes);
    }

    /// <inheritdoc />
    public StoneUse UseOf(string stone, DateOnly? after)
    {
        using BookContext context = Database.Open(PracticeCode);
        return PageReading.UseOf(context, stone, after);
    }

    /// <inheritdoc />
    public T? Find<T>(long id) where T : Entry
    {
        using BookContext context = Database.Open(PracticeCode);
        return context.Set<T>().AsNoTracking().FirstOrDefault(e => e.Id == id);
    }

    /// <inheritdoc />
    public IReadOnlyList<T> History<T>() where T : Entry
    {
        using BookContext context = Database.Open(PracticeCode);
        return [.. context.Set<T>().AsNoTracking().OrderBy(e => e.Id)];
    }

    /// <inheritdoc />
    public ImmutableArray<Entry> Append(params ReadOnlySpan<Entry> entries)
    {
        if (entries.Length == 0) return [];
        using BookWriting writing = new(this, _clock);
        ImmutableArray<Entry>.Builder stored = ImmutableArray.CreateBuilder<Entry>(entries.Length);
        foreach (Entry entry in entries)
        {
            if (entry is InspectionEntry { IsWithdrawal: false }) throw new BookException("An inspection is added together with its figures and photographs.");
            stored.Add(writing.Add(entry));
        }
        writing.Commit();
        return stored.MoveToImmutable();
    }

    /// <inheritdoc />
    public InspectionEntry Append(NewInspection inspection) => Append([inspection])[0];

    /// <summary>Adds several inspections, all or none.</summary>
    /// <returns>Their rows, in the order given.</returns>
    public ImmutableArray<InspectionEntry> Append(ReadOnlySpan<NewInspection> inspections)
    {
        // Outside the transaction: a photograph without rows harms nobody, a row without its photograph would be a lie. And no other writer waits for the disk.
        foreach (NewInspection inspection in inspections)
            foreach (NewPhotograph photograph in inspection.Photographs)
                Keep(photograph);
        using BookWriting writing = new(this, _clock);
        ImmutableArray<InspectionEntry>.Builder stored = ImmutableArray.CreateBuilder<InspectionEntry>(inspections.Length);
        foreach (NewInspection inspection in inspections) stored.Add(writing.Add(inspection));
        writing.Commit();
        return stored.MoveToImmutable();
    }

    /// <inheritdoc />
    public IReadOnlyList<FigureRow> Figures(long inspectionId)
    {
        using BookContext context = Database.Open(PracticeCode);
        return IsOurs(context, inspectionId) ? [.. context.Set<FigureRow>().AsNoTracking().Where(f => f.InspectionId == inspectionId).OrderBy(f => f.Position)] : [];
    }

    /// <inheritdoc />
    public IReadOnlyList<DatedFigure> FigureHistory(IReadOnlyCollection<string> names, params IReadOnlyCollection<string> instruments)
    {
        using BookContext context = Database.Open(PracticeCode);
        return FigureReading.Read(context, names, instruments);
    }

    /// <inheritdoc />
    public IReadOnlyList<PhotographRow> Photographs(long inspectionId)
    {
        using BookContext context = Database.Open(PracticeCode);
        return IsOurs(context, inspectionId) ? [.. context.Set<PhotographRow>().AsNoTracking().Where(p => p.InspectionId == inspectionId).OrderBy(p => p.Position)] : [];
    }

    /// <inheritdoc />
    public long? InspectionWith(string sha256, string nameEnding)
    {
        using BookContext context = Database.Open(PracticeCode);
        long[] named = [.. context.Set<PhotographRow>().AsNoTracking().Where(p => p.Sha256 == sha256).AsEnumerable().Where(p => p.FileName.EndsWith(nameEnding, StringComparison.Ordinal)).Select(p => p.InspectionId)];
        return named.Length == 0 ? null : CurrentRows.Of<InspectionEntry>(context).Where(i => named.Contains(i.Id)).Select(i => (long?)i.Id).FirstOrDefault();
    }

    /// <inheritdoc />
    public InspectionDocument? Document(long inspectionId)
    {
        using BookContext context = Database.Open(PracticeCode);
        return IsOurs(context, inspectionId) ? context.Set<InspectionDocument>().AsNoTracking().FirstOrDefault(d => d.InspectionId == inspectionId) : null;
    }

    /// <inheritdoc />
    public string PhotographPath(string sha256) => Folder.PathOf(sha256);

    private void Keep(NewPhotograph photograph)
    {
        string sha256 = photograph.Row.Sha256;
        if (photograph.Bytes is { } bytes)
        {
            string kept = Folder.Keep(bytes.Span);
            if (kept != sha256) throw new BookException($"{photograph.Row.FileName}: the bytes have the SHA-256 {kept} and not {sha256}.");
        }
        else if (!Folder.Has(sha256)) throw new BookException($"{photograph.Row.FileName}: the photograph {sha256} is not in the book.");
    }

    // Rows that hang on an inspection carry no practice of their own.
    private static bool IsOurs(BookContext context, long inspectionId) => context.Set<InspectionEntry>().Any(i => i.Id == inspectionId);
}
