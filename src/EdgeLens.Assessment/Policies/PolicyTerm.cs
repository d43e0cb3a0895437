using System.Collections.Immutable;

namespace EdgeLens.Assessment.Policies;

/// <summary>One limit as it stands in a policy file.</summary>
/// <param name="Name">Its property in the file; the unit is its ending.</param>
/// <param name="Least">Smallest value that makes sense.</param>
/// <param name="Greatest">Largest value that makes sense: beyond it a unit was mixed up.</param>
/// <param name="MayBeNull">True where null (not judged) is allowed.</param>
/// <param name="Get">Reads it.</param>
/// <param name="With">Sets it; the value is not null unless <paramref name="MayBeNull"/>.</param>
/// <param name="MayBeLeftOut">True for a limit that came after the first policies were written: without it, it is not judged.</param>
internal sealed record PolicyTerm(
    string Name, double Least, double Greatest, bool MayBeNull, Func<PolicyLimits, double?> Get, Func<PolicyLimits, double?, PolicyLimits> With, bool MayBeLeftOut = false)
{
    /// <summary>All limits, in the order of the documentation.</summary>
    public static ImmutableArray<PolicyTerm> All { get; } =
    [
        // The picture resolves some 5 to 15 µm: a sharp limit below 1 µm would judge noise, one above 100 µm a flattened edge.
        new("sharpLimitUm", 1, 100, false, l => l.SharpLimitUm, (l, v) => l with { SharpLimitUm = v!.Value }),
        new("reflectingTouchUpPercent", 0, 100, true, l => l.ReflectingTouchUpPercent, (l, v) => l with { ReflectingTouchUpPercent = v }),
        new("reflectingResharpenPercent", 0, 100, true, l => l.ReflectingResharpenPercent, (l, v) => l with { ReflectingResharpenPercent = v }),
        new("reflectionWidthResharpenUm", 1, 500, true, l => l.ReflectionWidthResharpenUm, (l, v) => l with { ReflectionWidthResharpenUm = v }),
        // Nicks below 20 µm are not reported at all (measurands.md): a lower limit would promise what is not measured.
        new("nickTouchUpUm", 20, 1000, true, l => l.NickTouchUpUm, (l, v) => l with { NickTouchUpUm = v }),
        new("nickResharpenUm", 20, 1000, true, l => l.NickResharpenUm, (l, v) => l with { NickResharpenUm = v }),
        new("widthLossWatchPercent", 0, 100, true, l => l.WidthLossWatchPercent, (l, v) => l with { WidthLossWatchPercent = v }),
        new("widthLossRetirePercent", 0, 100, true, l => l.WidthLossRetirePercent, (l, v) => l with { WidthLossRetirePercent = v }),
        new("widthStationsFromMm", 0.5, 20, false, l => l.WidthStationsFromMm, (l, v) => l with { WidthStationsFromMm = v!.Value }),
        new("widthStationsToMm", 0.5, 20, false, l => l.WidthStationsToMm, (l, v) => l with { WidthStationsToMm = v!.Value }),
        new("lengthLossWatchMm", 0, 20, true, l => l.LengthLossWatchMm, (l, v) => l with { LengthLossWatchMm = v }),
        new("lengthLossRetireMm", 0, 20, true, l => l.LengthLossRetireMm, (l, v) => l with { LengthLossRetireMm = v }),
        // The picture tells radii from some µm; beyond a tenth of a millimetre there is no edge left.
        new("edgeRadiusResharpenUm", 1, 100, true, l => l.EdgeRadiusResharpenUm, (l, v) => l with { EdgeRadiusResharpenUm = v }, true),
        new("angleDriftWatchDeg", 0, 45, true, l => l.AngleDriftWatchDeg, (l, v) => l with { AngleDriftWatchDeg = v }, true),
        new("angleDriftResharpenDeg", 0, 45, true, l => l.AngleDriftResharpenDeg, (l, v) => l with { AngleDriftResharpenDeg = v }, true),
        new("shapeDriftWatchUm", 0, 1000, true, l => l.ShapeDriftWatchUm, (l, v) => l with { ShapeDriftWatchUm = v }, true),
        new("shapeDriftResharpenUm", 0, 1000, true, l => l.ShapeDriftResharpenUm, (l, v) => l with { ShapeDriftResharpenUm = v }, true),
    ];

    /// <summary>Pairs of which the first must be less than the second: the milder limit is reached first. Stations may be equal.</summary>
    public static ImmutableArray<(string Lower, string Upper, bool MayBeEqual)> Order { get; } =
    [
        ("reflectingTouchUpPercent", "reflectingResharpenPercent", false),
        ("sharpLimitUm", "reflectionWidthResharpenUm", false),
        ("nickTouchUpUm", "nickResharpenUm", false),
        ("widthLossWatchPercent", "widthLossRetirePercent", false),
        ("widthStationsFromMm", "widthStationsToMm", true),
        ("lengthLossWatchMm", "lengthLossRetireMm", false),
        ("angleDriftWatchDeg", "angleDriftResharpenDeg", false),
        ("shapeDriftWatchUm", "shapeDriftResharpenUm", false),
    ];

    /// <summary>Finds a limit by its name in the file; null when there is none.</summary>
    public static PolicyTerm? Named(string name) => All.FirstOrDefault(t => t.Name == name);
}
