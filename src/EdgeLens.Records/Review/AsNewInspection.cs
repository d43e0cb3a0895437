using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;

namespace EdgeLens.Records.Review;

/// <summary>What later photographs of a working end are compared with.</summary>
public static class AsNewInspection
{
    /// <summary>The last as-new inspection of a working end that has photographs; null when there is none.</summary>
    public static InspectionEntry? Of(IRecordBook book, string instrument, int end)
    {
        ArgumentNullException.ThrowIfNull(book);
        return book.CurrentOf<InspectionEntry>(instrument).Where(i => i.End == end && i.IsAsNew && book.Photographs(i.Id).Count > 0).OrderBy(i => i.When).ThenBy(i => i.Id).LastOrDefault();
    }
}
