using EdgeLens.Records.Entries;

namespace EdgeLens.Records.Uses;

/// <summary>Procedures that were done with a cassette, or with one instrument, since the entry before.</summary>
public sealed record Procedure : Entry
{
    /// <summary>By the practice's calendar.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>As in <see cref="Practices.Cassette.Code"/>: all that lay in it that day were used. Null: <see cref="Instrument"/> is named.</summary>
    public string? Cassette { get; init; }

    /// <summary>As in <see cref="Instruments.Instrument.Code"/>; null: a cassette is named.</summary>
    public string? Instrument { get; init; }

    /// <summary>Patients with light deposits; at least 0.</summary>
    public required int LightCases { get; init; }

    /// <summary>Patients with heavy deposits; at least 0.</summary>
    public required int HeavyCases { get; init; }
}

/// <summary>What the plastic test rod says of an edge.</summary>
public sealed record RodTest : WorkingEndEvent
{
    /// <summary>True: it bites into the rod; false: it slides.</summary>
    public required bool Bites { get; init; }

    /// <summary>In the practice's words.</summary>
    public string? Note { get; init; }
}
