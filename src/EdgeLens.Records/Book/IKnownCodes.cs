using EdgeLens.Records.Entries;

namespace EdgeLens.Records.Book;

/// <summary>Which codes hold today, asked one at a time: a book may have thousands.</summary>
public interface IKnownCodes
{
    /// <summary>True when a row of this kind has the code.</summary>
    /// <typeparam name="T">Site, Cassette, Instrument, WorkingEnd (by <see cref="EntryRules.Key"/>) or Stone.</typeparam>
    bool IsGiven<T>(string code) where T : Entry;
}
