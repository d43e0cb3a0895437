using EdgeLens.Records.Book;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Sharpening;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace EdgeLens.Store.Database;

/// <summary>One transaction of additions; without <see cref="Commit"/> it leaves nothing.</summary>
internal sealed class BookWriting : IDisposable
{
    private readonly BookContext _context;
    private readonly IDbContextTransaction _transaction;
    private readonly EntryRules _rules;
    private readonly string _practice;
    private readonly DateTimeOffset _now;
    private RowWriter? _figures;

    public BookWriting(RecordBook book, TimeProvider clock)
    {
        _practice = book.PracticeCode;
        _context = book.Database.Open(_practice);
        _context.ChangeTracker.AutoDetectChangesEnabled = false;
        _transaction = book.Database.BeginWriting(_context, _practice);
        CurrentRows rows = new(_context);
        _rules = new(rows, rows);
        // Whole milliseconds, which every database and export keeps.
        _now = DateTimeOffset.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());
    }

    /// <summary>Adds a row.</summary>
    /// <returns>As stored, with its id.</returns>
    public T Add<T>(T entry) where T : Entry
    {
        _rules.Check(entry);
        if (entry.Corrects is { } old) CheckCorrection(entry, old);
        else if (entry.IsWithdrawal) throw new BookException("A withdrawal names the row that it takes back.");
        T stored = (T)(entry with { Id = 0, EnteredAt = _now });
        _context.Add(stored).Property(BookContext.PracticeCode).CurrentValue = _practice;
        try
        {
            Save();
        }
        catch (DbUpdateException e) when (entry.Corrects is { } corrected)
        {
            // The only rule that is left to the database: an index lets each row be corrected once.
            throw new BookException($"Row {corrected} is corrected already; correct the row that stands in for it.", e);
        }
        return stored;
    }

    /// <summary>Adds an inspection with all that hangs on it; its photographs must be kept already.</summary>
    public InspectionEntry Add(NewInspection inspection)
    {
        InspectionEntry stored = Add(inspection.Entry);
        _figures ??= new(_context, _context.Model.FindEntityType(typeof(FigureRow))!);
        object?[] values = new object?[_figures.Columns.Length];
        foreach (FigureRow figure in inspection.Figures)
        {
            FigureRow row = figure with { InspectionId = stored.Id };
            for (int i = 0; i < values.Length; i++) values[i] = _figures.Columns[i].Property.GetGetter().GetClrValue(row);
            _figures.Write(values);
        }
        foreach (NewPhotograph photograph in inspection.Photographs) _context.Add(photograph.Row with { InspectionId = stored.Id });
        _context.Add(inspection.Document with { InspectionId = stored.Id });
        Save();
        if (inspection.Sharpening is { } sharpening)
        {
            SharpeningRow row = sharpening.Row.Id == 0 ? Add(sharpening.Row) : sharpening.Row;
            Add(new SharpeningPair { By = stored.By, SharpeningId = row.Id, BeforeInspectionId = sharpening.BeforeInspectionId, InspectionId = stored.Id });
        }
        return stored;
    }

    /// <summary>Makes everything added so far last; on the disk when the call returns.</summary>
    public void Commit() => _transaction.Commit();

    public void Dispose()
    {
        _figures?.Dispose();
        _transaction.Dispose();
        _context.Dispose();
    }

    private void Save()
    {
        _context.SaveChanges();
        _context.ChangeTracker.Clear();
    }

    private void CheckCorrection(Entry entry, long old)
    {
        if (string.IsNullOrWhiteSpace(entry.CorrectionReason)) throw new BookException("A correction says why.");
        object corrected = _context.Find(entry.GetType(), old) ?? throw new BookException($"There is no row {old} of this kind to be corrected.");
        if (corrected is InstrumentEntry was && entry is InstrumentEntry now && was.Instrument != now.Instrument)
            throw new BookException($"Row {old} is about {was.Instrument}, not {now.Instrument}: withdraw it and enter a new one.");
        _context.ChangeTracker.Clear();
    }
}
