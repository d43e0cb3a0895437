using System.Collections.Immutable;

namespace EdgeLens.Assessment.Verification;

/// <summary>A round thing of known diameter that a practice holds its photographs against.</summary>
/// <param name="Name">For people: "needle 21G", "pin 1.000 mm".</param>
/// <param name="LeastMm">A right measurement of it is not below this.</param>
/// <param name="GreatestMm">Nor above this.</param>
public sealed record RoundGauge(string Name, double LeastMm, double GreatestMm)
{
    /// <summary>
    /// A measurement of a pin may be this far off: 1 %, a tenth of the width loss from which a curette is watched (10 %, common practice). Then an error of the scale cannot pass for wear.
    /// </summary>
    public const double PinErrorShare = 0.01;

    // A pin much outside this is no gauge that lies in the window or is seen on 10 pixels.
    private const double LeastPinMm = 0.3, GreatestPinMm = 3;

    /// <summary>Hypodermic needle tubing by its size: outside diameters that the standard allows.</summary>
    /// <remarks>ISO 9626:2016, table 1; values from memory.</remarks>
    public static ImmutableArray<RoundGauge> Needles { get; } =
    [
        new("needle 25G", 0.500, 0.530), new("needle 23G", 0.600, 0.673), new("needle 22G", 0.698, 0.730), new("needle 21G", 0.800, 0.830),
        new("needle 20G", 0.860, 0.920), new("needle 19G", 1.030, 1.100), new("needle 18G", 1.200, 1.300),
    ];

    /// <summary>The needle of a size written as "21G"; null when the table lacks it.</summary>
    public static RoundGauge? Needle(string size) => Needles.FirstOrDefault(n => string.Equals(n.Name, $"needle {size}", StringComparison.OrdinalIgnoreCase));

    /// <summary>A gauge pin.</summary>
    /// <param name="diameterMm">As its maker states it, 0.3 to 3 mm.</param>
    /// <returns>Null when the diameter is out of that range.</returns>
    public static RoundGauge? Pin(double diameterMm) => diameterMm is >= LeastPinMm and <= GreatestPinMm
        ? new(FormattableString.Invariant($"pin {diameterMm:0.000} mm"), diameterMm * (1 - PinErrorShare), diameterMm * (1 + PinErrorShare))
        : null;
}
