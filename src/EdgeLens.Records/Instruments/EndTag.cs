using EdgeLens.Records.Entries;

namespace EdgeLens.Records.Instruments;

/// <summary>A printed tag stands for a working end, so that a photograph which shows the tag says whose it is. One tag, one end; another end gets it once the row is withdrawn.</summary>
public sealed record EndTag : WorkingEndEntry
{
    /// <summary>Greatest number: the markers of the tags are numbered to 999 (0 is not used: it looks like "none").</summary>
    public const int GreatestNumber = 999;

    /// <summary>Id of the tag's marker, printed beside it; 1 to <see cref="GreatestNumber"/>.</summary>
    public required int Number { get; init; }
}
