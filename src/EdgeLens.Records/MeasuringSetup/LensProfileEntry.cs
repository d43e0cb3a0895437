using EdgeLens.Records.Entries;

namespace EdgeLens.Records.MeasuringSetup;

/// <summary>The profile of a phone and loupe as `edgelens lens` made it.</summary>
public sealed record LensProfileEntry : Entry
{
    /// <summary>One for each set-up; a new profile of the same name stands in for the older one.</summary>
    public required string Name { get; init; }

    /// <summary>When it was made.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>The profile's file.</summary>
    public required string Json { get; init; }
}

/// <summary>A known dimension was measured to see whether the set-up still measures right.</summary>
public sealed record Verification : Entry
{
    /// <summary>By the practice's calendar.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>As in <see cref="LensProfileEntry.Name"/>; null: without a profile.</summary>
    public string? LensProfile { get; init; }

    /// <summary>What was measured, in the practice's words.</summary>
    public required string Subject { get; init; }

    /// <summary>Its known dimension, mm.</summary>
    public required double KnownMm { get; init; }

    /// <summary>What EdgeLens said, mm.</summary>
    public required double MeasuredMm { get; init; }

    /// <summary>Standard uncertainty of the difference, mm.</summary>
    public required double StandardUncertaintyMm { get; init; }

    /// <summary>True when the difference is within its expanded uncertainty (k = 2).</summary>
    public bool IsPassed => Math.Abs(MeasuredMm - KnownMm) <= Geometry.Figures.Measured.CoverageFactor * StandardUncertaintyMm;
}
