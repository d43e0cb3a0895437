namespace EdgeLens.Measuring.Inspection;

/// <summary>Limits of the quality gate and of the light measurement; each with its reason.</summary>
public sealed record InspectorOptions
{
    /// <summary>
    /// Greatest tilt of the camera. Beyond it the recess's wall (5 mm deep) hides much of the ground, and the rounding's parallax (r sin t) passes
    /// a quarter of the radius (measurands.md: up to 15° from square).
    /// </summary>
    public double GreatestTiltDeg { get; init; } = 15;

    /// <summary>
    /// Greatest blur (standard deviation) at the cutting edge, in the plane of the face. The light on a clearly dull edge (radius 30 µm) lies 0.57 radii,
    /// 17 µm, inside the silhouette: beyond that blur the two merge. Sharp photographs of this kind have 5 to 13 µm.
    /// </summary>
    public double GreatestBlurUm { get; init; } = 17;

    /// <summary>Greatest linear brightness of the card's paper: above it the paper is about to clip, and steel that mirrors a panel is two to three times brighter.</summary>
    public double GreatestPaperLevel { get; init; } = 0.9;

    /// <summary>Least linear brightness of the card's paper: below it the face, a fifth to a third of the paper, is less than ten noise widths above the ground.</summary>
    public double LeastPaperLevel { get; init; } = 0.05;

    /// <summary>
    /// Reflection width from which an edge counts as reflecting, over fully lit steel. A rounding of radius r shows a band of about a third of r:
    /// 4 µm is a radius of about 11 µm, twice a fresh edge's.
    /// </summary>
    public double SharpLimitUm { get; init; } = 4;
}
