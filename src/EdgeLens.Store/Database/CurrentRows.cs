using EdgeLens.Records.Book;
using EdgeLens.Records.Entries;
using Microsoft.EntityFrameworkCore;

namespace EdgeLens.Store.Database;

/// <summary>The rows that hold today, inside one view of the database.</summary>
/// <param name="context">Borrowed.</param>
internal sealed class CurrentRows(BookContext context) : ICurrentRows
{
    public IReadOnlyList<T> Current<T>() where T : Entry => [.. Of<T>(context)];

    /// <summary>Not corrected and not withdrawn, in the order of entry.</summary>
    public static IQueryable<T> Of<T>(BookContext context) where T : Entry =>
        context.Set<T>().AsNoTracking().Where(e => !e.IsWithdrawal && !context.Set<T>().Any(c => c.Corrects == e.Id)).OrderBy(e => e.Id);
}
