namespace EdgeLens.Cli.Isolation;

/// <summary>What measuring one upload may take before its process is ended.</summary>
public sealed record MeasuringLimits
{
    /// <summary>Those of the server.</summary>
    public static MeasuringLimits Default { get; } = new();

    /// <summary>
    /// Processor time from the request to its answer, as-new photograph included. Two 12-megapixel photographs take about 3 s, two of 48 megapixels, about the largest that are decoded, 8 s.
    /// The processor's and not the clock's: a server that is busy with other things is not the photograph's fault.
    /// </summary>
    public TimeSpan ProcessorTime { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>By the clock: what waits for something that never comes uses no processor.</summary>
    public TimeSpan Time { get; init; } = TimeSpan.FromMinutes(10);

    /// <summary>Resident memory of the process: a photograph of 48 megapixels takes 0.5 GB at most, the as-new ones that are kept some hundred megabytes; twice all of that is a mistake or an attack.</summary>
    public long MemoryBytes { get; init; } = 2_000_000_000;

    /// <summary>How often time and memory are looked at. A decoder fills some 100 MB in that time.</summary>
    public TimeSpan LooksEvery { get; init; } = TimeSpan.FromMilliseconds(100);
}
