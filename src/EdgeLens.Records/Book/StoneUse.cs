namespace EdgeLens.Records.Book;

/// <summary>How a stone was used.</summary>
/// <param name="LastZone">Of the last sharpening that noted one; null: none did.</param>
/// <param name="Count">Sharpenings after the day that was asked for.</param>
public sealed record StoneUse(int? LastZone, int Count);
