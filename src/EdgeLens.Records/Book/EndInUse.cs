using EdgeLens.Records.Instruments;

namespace EdgeLens.Records.Book;

/// <summary>A working end of an instrument that is not retired.</summary>
/// <param name="End">The end.</param>
/// <param name="Description">What the practice calls the instrument's pattern; null: not noted.</param>
/// <param name="Cassette">Code of the cassette where it lies; null: in none.</param>
public sealed record EndInUse(WorkingEnd End, string? Description, string? Cassette);
