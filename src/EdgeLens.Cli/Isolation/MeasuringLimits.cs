namespace EdgeLens.Cli.Isolation;

/// <summary>What measuring one upload may take before its process is ended.</summary>
public sealed record MeasuringLimits
{
    /// <summary>Those of the server.</summary>
    public static MeasuringLimits Default { get; } = new();

    /// <summary>
    /// From the request to its answer, as-new photograph included. Two 12-megapixel photographs take about 2 s on two cores, two of 48 megapixels, about the largest that are decoded, 5 s; a slow
    /// machine takes some times as long. Whoever waits longer is not helped by a verdict any more, and those behind wait too.
    /// </summary>
    public TimeSpan Time { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>Resident memory of the process: a photograph of 48 megapixels takes 0.5 GB at most, the as-new ones that are kept some hundred megabytes; twice all of that is a mistake or an attack.</summary>
    public long MemoryBytes { get; init; } = 2_000_000_000;

    /// <summary>How often the memory is looked at. A decoder fills some 100 MB in that time.</summary>
    public TimeSpan LooksEvery { get; init; } = TimeSpan.FromMilliseconds(100);
}
