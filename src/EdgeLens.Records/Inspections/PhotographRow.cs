using EdgeLens.Assessment.Measurements;

namespace EdgeLens.Records.Inspections;

/// <summary>A kept photograph of an inspection and what the user knew of it.</summary>
public sealed record PhotographRow
{
    /// <summary>The inspection's row; set by the store.</summary>
    public long InspectionId { get; init; }

    /// <summary>Counts the photographs of an inspection from 0.</summary>
    public int Position { get; init; }

    /// <summary>Of the file's bytes, lower-case hex: its name in the photograph folder.</summary>
    public required string Sha256 { get; init; }

    /// <summary>As it was called when it came, without folder.</summary>
    public required string FileName { get; init; }

    /// <summary>What it shows.</summary>
    public required PhotographView View { get; init; }

    /// <summary>The card's horizontal bar by caliper; null: not measured.</summary>
    public double? BarXMm { get; init; }

    /// <summary>The card's vertical bar by caliper; null: not measured.</summary>
    public double? BarYMm { get; init; }

    /// <summary>Height of the face over the card, mm.</summary>
    public double HeightMm { get; init; }

    /// <summary>Its standard uncertainty, mm.</summary>
    public double HeightStandardUncertaintyMm { get; init; }

    /// <summary>As in <see cref="MeasuringSetup.LensProfileEntry.Name"/>; null: without.</summary>
    public string? LensProfile { get; init; }
}
