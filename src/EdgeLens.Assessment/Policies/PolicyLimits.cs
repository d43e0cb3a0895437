namespace EdgeLens.Assessment.Policies;

/// <summary>
/// Limits that one family of instruments is judged by. All are upper limits. A limit that is null is not judged. The default of
/// each, with its reason, stands in <c>default-policy.json</c> and in docs/policy.md.
/// </summary>
public sealed record PolicyLimits
{
    /// <summary>Reflection width above which a place of the edge counts as dull, µm equivalent width over fully lit steel.</summary>
    public double SharpLimitUm { get; init; }

    /// <summary>Reflecting fraction of one edge that calls for a touch-up, %.</summary>
    public double? ReflectingTouchUpPercent { get; init; }

    /// <summary>Reflecting fraction of one edge that calls for resharpening, %.</summary>
    public double? ReflectingResharpenPercent { get; init; }

    /// <summary>Greatest reflection width over 0.5 mm of edge that calls for resharpening, µm.</summary>
    public double? ReflectionWidthResharpenUm { get; init; }

    /// <summary>Depth of a nick that calls for a touch-up, µm.</summary>
    public double? NickTouchUpUm { get; init; }

    /// <summary>Depth of a nick that calls for resharpening, µm.</summary>
    public double? NickResharpenUm { get; init; }

    /// <summary>Greatest width loss at the judged stations from which the instrument is watched, % of as-new.</summary>
    public double? WidthLossWatchPercent { get; init; }

    /// <summary>Greatest width loss at the judged stations that ends its use, % of as-new.</summary>
    public double? WidthLossRetirePercent { get; init; }

    /// <summary>First station whose width is judged, mm back from the as-new apex.</summary>
    public double WidthStationsFromMm { get; init; }

    /// <summary>Last station whose width is judged, mm back from the as-new apex.</summary>
    public double WidthStationsToMm { get; init; }

    /// <summary>Length loss from which the instrument is watched, mm.</summary>
    public double? LengthLossWatchMm { get; init; }

    /// <summary>Length loss that ends its use, mm.</summary>
    public double? LengthLossRetireMm { get; init; }

    /// <summary>Greatest edge radius over 0.5 mm that calls for resharpening, µm.</summary>
    public double? EdgeRadiusResharpenUm { get; init; }

    /// <summary>Drift of an angle, either way, from which the instrument is watched, °.</summary>
    public double? AngleDriftWatchDeg { get; init; }

    /// <summary>Drift of an angle, either way, that calls for resharpening at the as-new angle, °.</summary>
    public double? AngleDriftResharpenDeg { get; init; }

    /// <summary>Shape drift from which the instrument is watched, µm rms.</summary>
    public double? ShapeDriftWatchUm { get; init; }

    /// <summary>Shape drift that calls for resharpening to the as-new form, µm rms.</summary>
    public double? ShapeDriftResharpenUm { get; init; }
}
