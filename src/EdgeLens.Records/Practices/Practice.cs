using EdgeLens.Records.Entries;

namespace EdgeLens.Records.Practices;

/// <summary>The practice whose book this is: one row holds.</summary>
public sealed record Practice : Entry
{
    /// <summary>For people; stands in the head of every report.</summary>
    public required string Name { get; init; }

    /// <summary>Of all prices: three letters as in ISO 4217.</summary>
    public required string Currency { get; init; }

    /// <summary>True for an invented practice: every report says so.</summary>
    public bool IsDemo { get; init; }
}

/// <summary>A place where the practice works.</summary>
public sealed record Site : Entry
{
    /// <summary>Short name, one for each site.</summary>
    public required string Code { get; init; }

    /// <summary>For people.</summary>
    public required string Name { get; init; }
}

/// <summary>A set of instruments that is sterilised and used together.</summary>
public sealed record Cassette : Entry
{
    /// <summary>Short name, one for each cassette.</summary>
    public required string Code { get; init; }

    /// <summary>For people.</summary>
    public required string Name { get; init; }

    /// <summary>Where it is used, as in <see cref="Site.Code"/>; null: not noted.</summary>
    public string? Site { get; init; }
}
