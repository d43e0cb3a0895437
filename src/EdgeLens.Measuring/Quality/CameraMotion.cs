using EdgeLens.Geometry.Figures;
using OpenCvSharp;

namespace EdgeLens.Measuring.Quality;

/// <summary>Whether the camera moved while the shutter was open: fine detail is then left across the movement and wiped out along it.</summary>
/// <remarks>
/// Ratio of the main axes of the picture's structure tensor. A card's squares and markers have as much detail either way: the ratio is at most 1.3 on
/// photographs at rest; a movement by 20 pixels of 2400 (0.25 mm) along the squares makes it 2.5. Along a diagonal of the squares both kinds of border
/// suffer alike, and the ratio stays near 1: such a movement is left to the limit on blur.
/// </remarks>
internal static class CameraMotion
{
    private const double GreatestRatio = 2;

    // The ratio is taken on a copy of this width: movement that matters is still seen, noise is averaged away, and it costs little.
    private const int ReducedWidthPx = 1200;

    /// <summary>The refusal <c>motion</c>, or null for a photograph that mostly shows the card and was taken at rest.</summary>
    /// <param name="grey">The photograph's luma, borrowed.</param>
    public static Refusal? Check(Mat grey)
    {
        using Mat reduced = new(), smooth = new(), gx = new(), gy = new(), product = new();
        double factor = Math.Min(1, (double)ReducedWidthPx / grey.Cols);
        Cv2.Resize(grey, reduced, default, factor, factor, InterpolationFlags.Area);
        Cv2.GaussianBlur(reduced, smooth, new Size(0, 0), 1);
        Cv2.Sobel(smooth, gx, MatType.CV_32F, 1, 0);
        Cv2.Sobel(smooth, gy, MatType.CV_32F, 0, 1);
        Cv2.Multiply(gx, gy, product);
        double xx = Math.Pow(Cv2.Norm(gx), 2), yy = Math.Pow(Cv2.Norm(gy), 2), xy = Cv2.Sum(product).Val0;
        double mean = (xx + yy) / 2, half = Math.Sqrt(Math.Pow((xx - yy) / 2, 2) + xy * xy);
        double ratio = (mean + half) / Math.Max(mean - half, 1e-9);
        return ratio <= GreatestRatio
            ? null
            : new("motion", "The camera moved while the photograph was taken: fine detail is wiped out in one direction.",
                "Rest the hand or the phone, use more light, and take the photograph again.", ratio, GreatestRatio, "times as much detail one way as the other");
    }
}
