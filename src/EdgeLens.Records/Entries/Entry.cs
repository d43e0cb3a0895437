namespace EdgeLens.Records.Entries;

/// <summary>
/// One row of the practice's book. Rows are only ever added: a correction is a new row that names the old one, and the old one stays. What holds today is
/// every row that no other row corrects and that is not withdrawn.
/// </summary>
public abstract record Entry
{
    private readonly string _by = "";

    /// <summary>Given by the store when the row is acknowledged; 0 before.</summary>
    public long Id { get; init; }

    /// <summary>When the row was acknowledged, UTC, whole milliseconds; set by the store.</summary>
    public DateTimeOffset EnteredAt { get; init; }

    /// <summary>Initials or staff code of who entered it; people have no other name here.</summary>
    /// <exception cref="ArgumentException">It is no staff code.</exception>
    public required string By
    {
        get => _by;
        init => _by = StaffCode.Check(value);
    }

    /// <summary>The row of the same kind that this one stands in for; null for a first entry.</summary>
    public long? Corrects { get; init; }

    /// <summary>Why it was corrected; null for a first entry.</summary>
    public string? CorrectionReason { get; init; }

    /// <summary>True when the row only takes back the one that it corrects, which should not have been entered.</summary>
    public bool IsWithdrawal { get; init; }
}

/// <summary>A row about one instrument.</summary>
public abstract record InstrumentEntry : Entry
{
    /// <summary>The practice's own name for the instrument, as in <see cref="Instruments.Instrument.Code"/>.</summary>
    public required string Instrument { get; init; }
}

/// <summary>A row about one end of an instrument.</summary>
public abstract record WorkingEndEntry : InstrumentEntry
{
    /// <summary>Which end, counted from 1.</summary>
    public required int End { get; init; }
}

/// <summary>What happened to one end on one day.</summary>
public abstract record WorkingEndEvent : WorkingEndEntry
{
    /// <summary>By the practice's calendar.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>By the practice's clock, where the order within a day matters; null: not noted.</summary>
    public TimeOnly? Time { get; init; }

    /// <summary>Day and time; the day's beginning where no time is noted.</summary>
    public DateTime When => Day.ToDateTime(Time ?? TimeOnly.MinValue);
}
