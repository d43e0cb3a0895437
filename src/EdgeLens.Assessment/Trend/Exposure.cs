namespace EdgeLens.Assessment.Trend;

/// <summary>What a working end had gone through by some moment since as-new.</summary>
/// <param name="Sharpenings">Count.</param>
/// <param name="Procedures">In light cases: a heavy one counts as several.</param>
/// <param name="Years">Time passed.</param>
public readonly record struct Exposure(double Sharpenings, double Procedures, double Years)
{
    /// <summary>Mean length of a year of the Gregorian calendar, days.</summary>
    public const double DaysPerYear = 365.2425;

    /// <summary>Exposure by a moment; entries at the very moment count as later.</summary>
    /// <param name="history">With its logs.</param>
    /// <param name="when">Not before as-new.</param>
    /// <param name="options">Weight of a heavy case.</param>
    public static Exposure At(WearHistory history, DateTime when, TrendOptions options)
    {
        ArgumentNullException.ThrowIfNull(history);
        ArgumentNullException.ThrowIfNull(options);
        return new(
            history.Sharpenings.Count(s => s.When >= history.AsNew && s.When < when),
            history.Uses.Where(u => u.When >= history.AsNew && u.When < when).Sum(u => u.LightCases + options.HeavyCaseWeight * u.HeavyCases),
            (when - history.AsNew).TotalDays / DaysPerYear);
    }

    /// <summary>The part that a driver counts.</summary>
    public double Of(WearDriver driver) => driver switch
    {
        WearDriver.Sharpening => Sharpenings,
        WearDriver.Procedure => Procedures,
        _ => Years,
    };
}

/// <summary>What metal is lost by.</summary>
public enum WearDriver
{
    /// <summary>Grinding: the loss jumps at each sharpening.</summary>
    Sharpening,

    /// <summary>Use, per light case.</summary>
    Procedure,

    /// <summary>Time, per year: only where neither sharpenings nor procedures are logged.</summary>
    Time,
}
