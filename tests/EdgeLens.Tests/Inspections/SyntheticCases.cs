using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;

namespace EdgeLens.Tests.Inspections;

/// <summary>Working ends in typical conditions.</summary>
internal static class SyntheticCases
{
    public static SyntheticWorkingEnd Sharp => new();

    /// <summary>About 13 % of the left edge dull.</summary>
    public static SyntheticWorkingEnd SlightlyDull => new() { ReflectionUm = (part, s) => part == EdgePart.Toe ? null : part == EdgePart.Left && s is > 0.9 and < 1.4 ? 6.5 : 1.2 };

    /// <summary>Both edges dull over their front half, a nick in the right one, 55 µm ground off each side.</summary>
    public static SyntheticWorkingEnd DullAndNicked => new()
    {
        LossUm = (part, s) => Ground(part, s, 42) + (part == EdgePart.Right ? NickProfile(s) : 0),
        ReflectionUm = (part, s) => part == EdgePart.Toe ? null : s < 2.6 ? (part == EdgePart.Left ? 13 : 15.5) * Fade(s, 2.6) : 1.2,
        Nicks = [new(EdgePart.Right, 2.1, 7.0, new(62, 4), new(0.33, 0.02))],
    };

    /// <summary>A quarter of the width gone, sharp.</summary>
    public static SyntheticWorkingEnd Worn => new() { LossUm = (part, s) => Ground(part, s, part == EdgePart.Left ? 130 : 95) };

    /// <summary>A twelfth to an eighth of the width gone, sharp.</summary>
    public static SyntheticWorkingEnd Watched => new() { LossUm = (part, s) => Ground(part, s, 56) };

    /// <summary>A luxator lit from the sides only, its tip ground back by 0.28 mm.</summary>
    public static SyntheticWorkingEnd LuxatorLitFromTheSides => new()
    {
        Family = InstrumentFamily.Luxator,
        LengthMm = 11,
        HalfWidthAtHeelMm = 1.5,
        HalfWidthAtToeMm = 1.45,
        ToeLengthMm = 1.3,
        LossUm = (part, s) => part == EdgePart.Toe ? 280 * Math.Max(0, 1 - s / 1.1) : 0,
        ReflectionUm = (part, _) => part == EdgePart.Toe ? null : 1.2,
    };

    /// <summary>The same with panels ahead of the tip, dull.</summary>
    public static SyntheticWorkingEnd DullLuxator => LuxatorLitFromTheSides with { ReflectionUm = (part, s) => part == EdgePart.Toe && s < 0.7 ? 13.5 : 1.2 };

    /// <summary>A sickle scaler with a dull tip third on the left.</summary>
    public static SyntheticWorkingEnd DullScaler => new()
    {
        Family = InstrumentFamily.UniversalScaler,
        LengthMm = 6.2,
        HalfWidthAtHeelMm = 0.62,
        HalfWidthAtToeMm = 0.09,
        ToeLengthMm = 0.14,
        LossUm = (part, s) => part == EdgePart.Left ? Ground(part, s, 14) : 0,
        ReflectionUm = (part, s) => part == EdgePart.Toe ? null : part == EdgePart.Left && s < 1.8 ? 10.5 : 1.2,
    };

    private static double Ground(EdgePart part, double stationMm, double depthUm) => (part == EdgePart.Toe ? 0.8 : 1) * depthUm * Fade(stationMm, 3.9);

    private static double NickProfile(double stationMm) => 62 * Math.Max(0, 1 - Math.Pow((stationMm - 2.1) / 0.19, 2));

    private static double Fade(double stationMm, double endMm) => Math.Clamp((endMm - stationMm) / 0.5, 0, 1);
}
