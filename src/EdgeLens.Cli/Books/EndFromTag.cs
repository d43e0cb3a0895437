using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Records.Book;
using EdgeLens.Records.Instruments;

namespace EdgeLens.Cli.Books;

/// <summary>From the tags in a photograph to the working end that it shows.</summary>
internal static class EndFromTag
{
    /// <summary>Decides. A wrong end is worse than a question: whatever does not fit is asked.</summary>
    /// <param name="book">That knows the tags.</param>
    /// <param name="chosen">By the user; null: the tag says it.</param>
    /// <param name="tags">As read in the photograph.</param>
    /// <returns>The end with the number of its tag (null: chosen by hand, no tag seen), or a refusal whose code begins with <see cref="CodeStart"/>.</returns>
    public static Outcome<TaggedEnd> Decide(IRecordBook book, WorkingEnd? chosen, ImmutableArray<int> tags)
    {
        EndTag[] known = tags.IsEmpty ? [] : [.. book.Current<EndTag>().Where(t => tags.Contains(t.Number))];
        string numbers = string.Join(", ", tags.Select(t => FormattableString.Invariant($"{t}")));
        if (chosen is not null)
        {
            // A tag that the book does not know says nothing against what was chosen.
            EndTag? other = known.FirstOrDefault(t => t.Instrument != chosen.Instrument || t.End != chosen.End);
            return other is null
                ? new TaggedEnd(chosen, known.FirstOrDefault()?.Number)
                : new Refusal(CodeStart + "contradicts", $"{EntryRules.Key(chosen.Instrument, chosen.End)} was chosen, but the tag {other.Number} in the photograph stands for {EntryRules.Key(other.Instrument, other.End)}.", "Say which of the two it is.");
        }
        if (tags.IsEmpty)
            return new Refusal(CodeStart + "missing", "No tag can be read in the photograph.", "Say which working end it is. Next time lay the tag flat on the card beside the window, its square in the picture, sharp and lit.");
        if (tags.Length > 1) return new Refusal(CodeStart + "several", $"Several tags lie in the photograph: {numbers}.", "Say which working end it is. Leave one tag on the card.");
        if (known.Length == 0) return new Refusal(CodeStart + "unknown", $"The book does not know the tag {numbers}.", "Say which working end it is. `edgelens book tag` gives a tag to a working end.");
        WorkingEnd? end = book.CurrentOf<WorkingEnd>(known[0].Instrument).FirstOrDefault(e => e.End == known[0].End);
        return end is null ? new Refusal(CodeStart + "unknown", $"The tag {numbers} stands for {EntryRules.Key(known[0].Instrument, known[0].End)}, which the book no longer has.", "Say which working end it is.") : new TaggedEnd(end, known[0].Number);
    }

    /// <summary>All refusals that are about which end it is, and not about the photograph, begin so.</summary>
    public const string CodeStart = "tag-";
}

/// <summary>A working end, and the tag that named it.</summary>
/// <param name="End">Which.</param>
/// <param name="Tag">Its number; null: no tag was seen.</param>
internal sealed record TaggedEnd(WorkingEnd End, int? Tag);
