using EdgeLens.Geometry.Figures;

namespace EdgeLens.Imaging.Calibration;

/// <summary>Where the uncertainty of lengths in the plane of the face comes from: relative standard uncertainties, independent of each other, each common to all lengths of one photograph.</summary>
/// <param name="Corners">Where the card's corners were found.</param>
/// <param name="Print">The caliper's readings of the bars.</param>
/// <param name="Lens">Camera distance, focal length, distortion and principal point, as far as only assumed or taken from a profile.</param>
/// <param name="Height">The height of the face over the card, seen from the camera's distance.</param>
public sealed record ScaleBudget(double Corners, double Print, double Lens, double Height)
{
    /// <summary>All together, JCGM 100:2008 equation (10).</summary>
    public double RelativeStandardUncertainty => Quadrature.Sum(Corners, Print, Lens, Height);

    /// <summary>What remains when the height of the face is known.</summary>
    public double WithoutHeight => Quadrature.Sum(Corners, Print, Lens);
}
