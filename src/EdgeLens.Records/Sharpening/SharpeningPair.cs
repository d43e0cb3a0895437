using EdgeLens.Records.Entries;

namespace EdgeLens.Records.Sharpening;

/// <summary>The two inspections that a sharpening lies between.</summary>
public sealed record SharpeningPair : Entry
{
    /// <summary>Row of the sharpening.</summary>
    public required long SharpeningId { get; init; }

    /// <summary>The inspection before it.</summary>
    public required long BeforeInspectionId { get; init; }

    /// <summary>The inspection after it.</summary>
    public required long InspectionId { get; init; }
}
