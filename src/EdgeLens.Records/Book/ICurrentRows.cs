using EdgeLens.Records.Entries;

namespace EdgeLens.Records.Book;

/// <summary>What holds today: a book, or a book in the middle of a transaction.</summary>
public interface ICurrentRows
{
    /// <summary>The rows that hold today, in the order of entry: not corrected and not withdrawn.</summary>
    /// <typeparam name="T">Kind of row.</typeparam>
    IReadOnlyList<T> Current<T>() where T : Entry;
}
