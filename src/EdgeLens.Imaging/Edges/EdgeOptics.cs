namespace EdgeLens.Imaging.Edges;

/// <summary>What the camera does to an edge, common to a whole photograph.</summary>
/// <param name="BlurSigmaPx">Standard deviation of the Gaussian that lens, defocus and pixel together spread a step with, in linear light.</param>
/// <param name="Sharpening">What the phone did afterwards.</param>
public readonly record struct EdgeOptics(double BlurSigmaPx, Sharpening Sharpening);

/// <summary>
/// The phone's own sharpening: the picture in tone values plus <paramref name="Amount"/> times its difference from a Gaussian-smoothed copy.
/// It leaves a bright seam inside and a dark one outside every edge, just where light on a dull edge would be looked for.
/// </summary>
/// <param name="Amount">0 for none; phones use up to about 0.5.</param>
public readonly record struct Sharpening(double Amount)
{
    /// <summary>
    /// Radius of the smoothed copy. Phones sharpen over about a pixel; amount and radius cannot be told apart at an edge that is itself blurred
    /// over a pixel (a larger radius with a smaller amount looks the same), so the radius is fixed and the amount is fitted.
    /// </summary>
    public const double RadiusPx = 1.2;
}

/// <summary>
/// How the rounding of an edge shows the light, per unit of its radius: normals tilted from the face's normal by angles whose sines lie
/// between <paramref name="BandStart"/> and <paramref name="BandEnd"/> mirror the panel into the camera, at level <paramref name="LitLevel"/>.
/// </summary>
/// <param name="LitLevel">Linear brightness of steel that mirrors the panel, share of full scale; may exceed 1 where the photograph is clipped.</param>
/// <param name="LitLevelRelativeUncertainty">Standard uncertainty of the level, relative.</param>
/// <param name="BandStart">Sine of the least tilt that is lit.</param>
/// <param name="BandEnd">Sine of the greatest tilt that is lit.</param>
/// <param name="BandRelativeUncertainty">Standard uncertainty of the band's width, relative.</param>
/// <param name="Source">In words: what the level rests on.</param>
public sealed record SteelLight(
    double LitLevel, double LitLevelRelativeUncertainty, double BandStart, double BandEnd, double BandRelativeUncertainty, string Source)
{
    /// <summary>Width of the lit band per unit radius, seen square to the face.</summary>
    public double BandWidth => BandEnd - BandStart;
}
