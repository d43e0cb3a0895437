using EdgeLens.Records.Book;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Records.Sharpening;
using Microsoft.EntityFrameworkCore;

namespace EdgeLens.Store.Database;

/// <summary>The rows that hold today, inside one view of the database.</summary>
/// <param name="context">Borrowed.</param>
internal sealed class CurrentRows(BookContext context) : ICurrentRows, IKnownCodes
{
    public IReadOnlyList<T> Current<T>() where T : Entry => [.. Of<T>(context).OrderBy(e => e.Id)];

    public bool IsGiven<T>(string code) where T : Entry =>
        typeof(T) == typeof(Instrument) ? Of<Instrument>(context).Any(i => i.Code == code)
        : typeof(T) == typeof(WorkingEnd) ? IsEndGiven(code)
        : typeof(T) == typeof(Cassette) ? Of<Cassette>(context).Any(c => c.Code == code)
        : typeof(T) == typeof(Site) ? Of<Site>(context).Any(s => s.Code == code)
        : typeof(T) == typeof(Stone) ? Of<Stone>(context).Any(s => s.Code == code)
        : throw new ArgumentException($"{typeof(T).Name} has no code.", nameof(code));

    /// <summary>
    /// Not corrected and not withdrawn, in no order. A query for some of many rows sorts them afterwards (<see cref="InOrder"/>): asked for them in order SQLite walks
    /// all rows of the practice by their ids, to be spared the sorting of a few.
    /// </summary>
    public static IQueryable<T> Of<T>(BookContext context) where T : Entry =>
        context.Set<T>().AsNoTracking().Where(e => !e.IsWithdrawal && !context.Set<T>().Any(c => c.Corrects == e.Id));

    /// <summary>In the order of entry.</summary>
    public static IReadOnlyList<T> InOrder<T>(IQueryable<T> found) where T : Entry => [.. found.AsEnumerable().OrderBy(e => e.Id)];

    // The key is put together in one place only; the instrument's part of it may itself hold any word.
    private bool IsEndGiven(string key)
    {
        string instrument = key[..key.LastIndexOf(" end ", StringComparison.Ordinal)];
        return Of<WorkingEnd>(context).Where(e => e.Instrument == instrument).AsEnumerable().Any(e => EntryRules.Key(e.Instrument, e.End) == key);
    }
}
