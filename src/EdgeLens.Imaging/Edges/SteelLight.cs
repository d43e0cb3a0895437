using EdgeLens.Geometry.Figures;

namespace EdgeLens.Imaging.Edges;

/// <summary>The panels as steel shows them: how bright, how high, how wide.</summary>
/// <param name="LitLevel">Linear brightness of steel that mirrors a panel, share of full scale; may exceed 1 where the photograph is clipped.</param>
/// <param name="LitLevelRelativeUncertainty">Standard uncertainty of the level, relative.</param>
/// <param name="ElevationDeg">Of the panels' middle over the face's plane.</param>
/// <param name="HalfAngleDeg">Half the angle that a panel fills as seen from the blade.</param>
/// <param name="BandRelativeUncertainty">Standard uncertainty of the half angle, relative; the lit band's width has the same.</param>
/// <param name="Source">In words: what the level rests on.</param>
public sealed record SteelLight(
    double LitLevel, double LitLevelRelativeUncertainty, double ElevationDeg, double HalfAngleDeg, double BandRelativeUncertainty, string Source)
{
    // 5° of the panels' elevation are 4.5 % of the radius (docs/physics/edge-profile.md, table of what is assumed).
    private const double ElevationRelativeUncertainty = 0.045;

    /// <summary>Relative standard uncertainty of a radius, the same along the whole edge: the line's light is level times band times radius.</summary>
    public double RadiusRelativeUncertainty => Quadrature.Sum(LitLevelRelativeUncertainty, BandRelativeUncertainty, ElevationRelativeUncertainty);

    /// <summary>How a rounding shows these panels to a camera that leans towards its outer side.</summary>
    /// <param name="leanDeg">Angle of the line of sight from the face's normal, positive when the camera stands on the outer side.</param>
    /// <remarks>
    /// Angles in the plane across the edge, from the line of sight: the panel's middle lies at 90° - elevation - lean, the normal that mirrors it
    /// at half of that, the horizon's at half of 90° - lean.
    /// </remarks>
    public RoundingLight Seen(double leanDeg)
    {
        double middle = (90 - ElevationDeg - leanDeg) / 2, half = HalfAngleDeg / 2;
        // A perfect mirror would turn dark at the horizon; scatter moves the fall inwards by a fixed share (RoundingLight).
        double horizon = 1 - Sine(45 - leanDeg / 2);
        return new RoundingLight(LitLevel, Sine(middle - half), Sine(middle + half), horizon + RoundingLight.ScatterShift);
    }

    private static double Sine(double degrees) => Math.Sin(degrees * Math.PI / 180);
}

/// <summary>
/// What a rounding shows, per unit of its radius, seen along the line of sight: normals tilted from that line by angles whose sines lie between
/// <paramref name="BandStart"/> and <paramref name="BandEnd"/> mirror a panel.
/// </summary>
/// <param name="LitLevel">Linear brightness of the lit band, share of full scale.</param>
/// <param name="BandStart">Sine of the least tilt that is lit.</param>
/// <param name="BandEnd">Sine of the greatest tilt that is lit.</param>
/// <param name="DarkCentre">Radii inside the silhouette where the rounding's light falls to half: farther out it mirrors the black recess.</param>
public readonly record struct RoundingLight(double LitLevel, double BandStart, double BandEnd, double DarkCentre)
{
    /// <summary>
    /// Ground steel scatters, and the room it mirrors fades towards the horizon: on rendered photographs of known radius the light falls
    /// to half this many radii farther in than a perfect mirror's would (0.08 to 0.2 over three photographs).
    /// </summary>
    public const double ScatterShift = 0.10;

    /// <summary>Standard deviation of that fall, in radii (0.14 to 0.27 over the same): a dull edge in the dark looks blurred, and this tells its radius.</summary>
    public const double DarkSpread = 0.18;

    /// <summary>Relative standard uncertainty of the two constants.</summary>
    public const double DarkRelativeUncertainty = 0.25;

    /// <summary>Width of the lit band per unit radius.</summary>
    public double BandWidth => BandEnd - BandStart;

    /// <summary>Radii between the silhouette and the band's middle.</summary>
    public double BandDepth => 1 - (BandStart + BandEnd) / 2;
}
