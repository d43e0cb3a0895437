using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Records.Entries;

namespace EdgeLens.Records.Instruments;

/// <summary>An instrument as it was bought.</summary>
public sealed record Instrument : Entry
{
    /// <summary>The practice's own name for it, engraved or on a tag; never given to another one.</summary>
    public required string Code { get; init; }

    /// <summary>What the practice calls its pattern; null: not noted.</summary>
    public string? Description { get; init; }

    /// <summary>Day of purchase; null: not known.</summary>
    public DateOnly? PurchasedOn { get; init; }

    /// <summary>Price of a new one, in the practice's currency; null: not known.</summary>
    public decimal? Price { get; init; }
}

/// <summary>One end of an instrument, with the maker's dimensions where they are known.</summary>
public sealed record WorkingEnd : WorkingEndEntry
{
    /// <summary>Kind.</summary>
    public required InstrumentFamily Family { get; init; }

    /// <summary>For an area-specific curette the edge that cuts; null: both, or not known.</summary>
    public EdgePart? WorkingEdge { get; init; }

    /// <summary>Length of the blade by the maker, mm; null: not known.</summary>
    public double? MakerLengthMm { get; init; }

    /// <summary>Width at the middle of the blade by the maker, mm; null: not known.</summary>
    public double? MakerWidthMm { get; init; }

    /// <summary>Face to terminal shank by the maker, degrees; null: not known.</summary>
    public double? MakerFaceAngleDeg { get; init; }

    /// <summary>Internal or wedge angle by the maker, degrees; null: not known.</summary>
    public double? MakerEdgeAngleDeg { get; init; }
}

/// <summary>An instrument is put into a cassette. The latest day counts.</summary>
public sealed record Placement : InstrumentEntry
{
    /// <summary>From this day on.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>As in <see cref="Practices.Cassette.Code"/>; null: taken out of its cassette.</summary>
    public string? Cassette { get; init; }
}

/// <summary>Where an instrument is in its life.</summary>
public enum InstrumentState
{
    /// <summary>In use.</summary>
    InUse,

    /// <summary>Away to be sharpened.</summary>
    AtSharpening,

    /// <summary>Out of use for good.</summary>
    Retired,
}

/// <summary>An instrument changes its state. The latest day counts; without any it is in use.</summary>
public sealed record StateChange : InstrumentEntry
{
    /// <summary>From this day on.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>What it is from then on.</summary>
    public required InstrumentState State { get; init; }

    /// <summary>Why, in the practice's words.</summary>
    public string? Reason { get; init; }
}
