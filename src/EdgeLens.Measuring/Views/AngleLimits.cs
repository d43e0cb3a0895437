using EdgeLens.Geometry.Figures;

namespace EdgeLens.Measuring.Views;

/// <summary>Limits common to the angles of both views.</summary>
public static class AngleLimits
{
    /// <summary>
    /// Greatest standard uncertainty of an angle that is still given: a hand holds a stone to some 2 to 3° (common practice), so an angle that
    /// is not known to ± 3° (k = 2) cannot tell it anything.
    /// </summary>
    public const double GreatestUncertaintyDeg = 1.5;

    /// <summary>How far a hand sets a blade's axis off the card's normal in a toe view, or off its plane in a side view, either way, rectangular (measurands.md).</summary>
    public const double AlignmentLimitDeg = 1.5;

    /// <summary>What that leaves of a view direction uncertain, standard, radians.</summary>
    public static double AlignmentSigmaRad { get; } = Quadrature.FromLimits(AlignmentLimitDeg) * Math.PI / 180;
}
