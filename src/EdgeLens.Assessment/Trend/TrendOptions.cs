using System.Collections.Immutable;

namespace EdgeLens.Assessment.Trend;

/// <summary>What a trend assumes.</summary>
public sealed record TrendOptions
{
    /// <summary>The documented assumptions.</summary>
    public static TrendOptions Default { get; } = new();

    /// <summary>How many light cases a heavy one counts as. Common practice: two or three.</summary>
    public double HeavyCaseWeight { get; init; } = 2.5;

    /// <summary>Probability of the prediction interval, 0 to 1; 0.95 as for every expanded uncertainty in EdgeLens.</summary>
    public double Probability { get; init; } = 0.95;

    /// <summary>Inspections after as-new that a trend needs at least: two fix a rate and its check, the third one shows the scatter from sharpening to sharpening.</summary>
    public int FewestInspections { get; init; } = 3;

    /// <summary>Degrees of freedom below which a trend is called weak: with fewer than 3, Student's factor is above 3.2 and the interval mostly says how little is known.</summary>
    public int FewestStrongDegreesOfFreedom { get; init; } = 3;

    /// <summary>How far a forecast looks ahead, years. Further than a working end lives, a straight line says nothing.</summary>
    public double HorizonYears { get; init; } = 10;

    /// <summary>Shortest history that gives a rate of use, days: below a month one busy week decides.</summary>
    public double ShortestHistoryDays { get; init; } = 30;

    /// <summary>
    /// Program versions whose figures somebody has shown to agree and so may stand in one trend. Empty: a history with more than one version is refused, so that a
    /// change of the program never passes for wear.
    /// </summary>
    public ImmutableArray<string> VersionsThatAgree { get; init; } = [];
}
