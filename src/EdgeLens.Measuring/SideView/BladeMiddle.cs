using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Lines;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.SideView;

/// <summary>
/// Where face and back lie in the middle of the blade, where the bevel's contour is. Their long lines are edges of the blade, w, half its width, nearer to the camera or farther away: seen from the
/// side by vy, |vy| w off the middle.
/// </summary>
/// <param name="FaceInwardsMm">How far inwards of its long line the face lies; negative where the line is the nearer edge of a surface that is looked upon.</param>
/// <param name="BackInwardsMm">Likewise the back, of its line.</param>
internal sealed record BladeMiddle(Measured FaceInwardsMm, Measured BackInwardsMm)
{
    // Blades are 2.5 to 5 mm wide (common practice), rectangular; a face view of the day knows better.
    private const double HalfWidthMm = 1.8, HalfWidthLimitMm = 0.62;

    // JPEG blocks and the phone's sharpening reach this far from an edge.
    private const int HaloPx = 6;

    // Ground that is held against the band between both edges, and the least of that band.
    private const int GroundPx = 24, LeastBandPx = 6;

    // A band of steel is told from the ground by this many standard deviations of the ground's columns.
    private const double Clear = 5;

    /// <summary>Tells them.</summary>
    /// <param name="picture">The photograph.</param>
    /// <param name="face">Long line of the face.</param>
    /// <param name="back">Of the back.</param>
    /// <param name="vy">View direction out of the face over its part along the sight; positive where the camera looks upon the face, negative where upon the back.</param>
    /// <param name="mmPerPx">At the blade.</param>
    /// <param name="faceView">Of the day; null where there is none.</param>
    public static BladeMiddle Of(TonePicture picture, Stretch face, Stretch back, double vy, double mmPerPx, FaceMeasurement? faceView)
    {
        Measured half = HalfWidth(faceView);
        double off = Math.Abs(vy) * half.Value, sigma = Quadrature.Sum(half.Value * AngleLimits.AlignmentSigmaRad, Math.Abs(vy) * half.StandardUncertainty);
        return new(Inwards(face, vy > 0), Inwards(back, vy < 0));

        Measured Inwards(Stretch line, bool isLookedUpon) => (isLookedUpon ? HasSteelOutside(picture, line, 2 * off / mmPerPx) : false) switch
        {
            false => new(off, sigma),
            true => new(-off, sigma),
            null => new(0, Quadrature.Sum(sigma, Quadrature.FromLimits(off))),
        };
    }

    /// <summary>Whether the surface is seen as a band outside of its line, which then is its nearer edge; null where the band is too narrow to be told.</summary>
    private static bool? HasSteelOutside(TonePicture picture, Stretch line, double bandPx)
    {
        int band = (int)bandPx - HaloPx;
        if (band < LeastBandPx) return null;
        LineStrip strip = new(picture, line, 0, (int)bandPx + HaloPx + GroundPx);
        double[] means = new double[strip.Columns];
        for (int t = 0; t < strip.Rows; t++)
        {
            ReadOnlySpan<double> row = strip.Row(t);
            for (int k = 0; k < row.Length; k++) means[k] += row[k] / strip.Rows;
        }
        double[] ground = means[^GroundPx..];
        double mean = ground.Average(), sd = Math.Sqrt(ground.Sum(g => (g - mean) * (g - mean)) / (GroundPx - 1));
        return means[HaloPx..(HaloPx + band)].Average() - mean > Clear * sd;
    }

    private static Measured HalfWidth(FaceMeasurement? faceView)
    {
        double[] widths = faceView is null ? [] : [.. faceView.Widths.Where(w => w.StationMm is > 1.4 and < 4.6).Select(w => w.WidthMm.Value / 2)];
        if (widths.Length == 0) return new(HalfWidthMm, Quadrature.FromLimits(HalfWidthLimitMm));
        return new(widths.Average(), Quadrature.FromLimits((widths.Max() - widths.Min()) / 2));
    }
}
