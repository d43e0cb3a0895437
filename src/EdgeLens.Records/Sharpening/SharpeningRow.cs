using EdgeLens.Records.Entries;

namespace EdgeLens.Records.Sharpening;

/// <summary>One sharpening of one end.</summary>
public sealed record SharpeningRow : WorkingEndEvent
{
    private readonly string? _sharpenedBy;

    /// <summary>Initials or staff code of who sharpened; null: sent out or not noted.</summary>
    public string? SharpenedBy
    {
        get => _sharpenedBy;
        init => _sharpenedBy = value is null ? null : StaffCode.Check(value);
    }

    /// <summary>As in <see cref="Stone.Code"/>; null: not noted.</summary>
    public string? Stone { get; init; }

    /// <summary>Zone of the stone that was used, counted from 1; null: not noted.</summary>
    public int? Zone { get; init; }

    /// <summary>Strokes; null: not counted.</summary>
    public int? Strokes { get; init; }

    /// <summary>In the practice's words.</summary>
    public string? Note { get; init; }
}

/// <summary>A sharpening stone.</summary>
public sealed record Stone : Entry
{
    /// <summary>Short name, one for each stone.</summary>
    public required string Code { get; init; }

    /// <summary>Kind and grit, in the practice's words.</summary>
    public required string Description { get; init; }

    /// <summary>Into how many zones it is divided, so that use goes round and no groove is worn; at least 1.</summary>
    public required int Zones { get; init; }

    /// <summary>The zone to use next: the one after the last used.</summary>
    /// <param name="lastUsed">From the latest sharpening with it; null: never used.</param>
    public int NextZone(int? lastUsed) => lastUsed is { } last ? last % Zones + 1 : 1;
}

/// <summary>A stone is looked after.</summary>
public sealed record StoneCare : Entry
{
    /// <summary>As in <see cref="Sharpening.Stone.Code"/>.</summary>
    public required string Stone { get; init; }

    /// <summary>By the practice's calendar.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>Cleaned of swarf.</summary>
    public bool WasWiped { get; init; }

    /// <summary>Null: flatness was not checked; true: flat; false: hollow, to be dressed.</summary>
    public bool? IsFlat { get; init; }
}
