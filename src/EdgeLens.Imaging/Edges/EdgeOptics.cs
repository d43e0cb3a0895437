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
