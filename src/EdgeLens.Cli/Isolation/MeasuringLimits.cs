namespace EdgeLens.Cli.Isolation;

/// <summary>What measuring one upload may take before its process is ended.</summary>
public sealed record MeasuringLimits
{
    /// <summary>Those of the server.</summary>
    public static MeasuringLimits Default { get; } = new();

    /// <summary>
    /// From the request to its answer, as-new photograph included. Two 12-megapixel photographs take about 3 s on two cores; two of 50 megapixels, the largest that are decoded, on a slow machine
    /// about ten times as long. Whoever waits longer is not helped by a verdict any more, and those behind wait too.
    /// </summary>
    public TimeSpan Time { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>Resident memory of the process: a photograph of 50 megapixels takes about 1 GB in all stages together; twice that is a mistake or an attack.</summary>
    public long MemoryBytes { get; init; } = 2_000_000_000;

    /// <summary>How often the memory is looked at. A decoder fills some 100 MB in that time.</summary>
    public TimeSpan LooksEvery { get; init; } = TimeSpan.FromMilliseconds(100);
}
