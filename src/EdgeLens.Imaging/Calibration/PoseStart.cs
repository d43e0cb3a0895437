using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Cards;
using OpenCvSharp;

namespace EdgeLens.Imaging.Calibration;

/// <summary>A first geometry from the homography of the corners, without distortion: only a start for <see cref="CardBundle"/>, its bias is gone after the first steps.</summary>
internal static class PoseStart
{
    /// <summary>Null when the corners don't span a plane (fewer than four, or all on one line).</summary>
    public static CardGeometry? From(IReadOnlyList<CardCorner> corners, int widthPx, int heightPx, BundlePriors priors)
    {
        if (corners.Count < 4) return null;
        DesignPoint pivot = new(corners.Average(c => c.Design.XMm), corners.Average(c => c.Design.YMm));
        double cx = (widthPx - 1) / 2.0, cy = (heightPx - 1) / 2.0, scaleX = Math.Exp(priors.Mean[CardGeometry.LnPrintX]), scaleY = Math.Exp(priors.Mean[CardGeometry.LnPrintY]);
        using Mat homography = Cv2.FindHomography(
            corners.Select(c => new Point2d(scaleX * (c.Design.XMm - pivot.XMm), scaleY * (c.Design.YMm - pivot.YMm))),
            corners.Select(c => new Point2d(c.Pixel.X - cx, c.Pixel.Y - cy)), HomographyMethods.Ransac, DistortionAllowancePx(corners));
        if (homography.Rows != 3) return null;
        ReadOnlySpan<double> h = homography.AsSpan<double>();
        if (!double.IsFinite(h[0]) || Math.Abs(h[8]) < 1e-12) return null;

        // H = (f r1, f r2, f t) in the first two rows, (r1, r2, t) in the third, up to a factor. At the pivot, pixels per millimetre are f / Z.
        double pxPerMm = Math.Sqrt(Math.Abs((h[0] - h[6] * h[2]) * (h[4] - h[7] * h[5]) - (h[1] - h[7] * h[2]) * (h[3] - h[6] * h[5])));
        if (!(pxPerMm > 0)) return null;
        double f = priors.DistanceMm is { } distance ? distance.Value * pxPerMm : Math.Exp(priors.Mean[CardGeometry.LnFocal]);
        Vector3 c1 = new(h[0] / f, h[3] / f, h[6]), c2 = new(h[1] / f, h[4] / f, h[7]), t = new(h[2] / f, h[5] / f, h[8]);
        double perUnit = 2 / (c1.Length + c2.Length);
        return new(
            new(f, cx, cy, priors.Mean[CardGeometry.K1]), scaleX, scaleY, 0, Rotation3.FromNearlyOrthonormal(c1, c2), perUnit * t, pivot);
    }

    /// <summary>
    /// Distance in pixels within which a corner agrees with the homography: a quarter of the least distance of two marker corners. Distortion
    /// bends by less, a marker that was misread lands a whole square or more away.
    /// </summary>
    private static double DistortionAllowancePx(IReadOnlyList<CardCorner> corners)
    {
        double nearest = double.MaxValue;
        for (int i = 1; i < corners.Count; i++)
        {
            double dx = corners[i].Pixel.X - corners[i - 1].Pixel.X, dy = corners[i].Pixel.Y - corners[i - 1].Pixel.Y;
            double mm = Math.Sqrt(Math.Pow(corners[i].Design.XMm - corners[i - 1].Design.XMm, 2) + Math.Pow(corners[i].Design.YMm - corners[i - 1].Design.YMm, 2));
            if (mm > 0) nearest = Math.Min(nearest, Math.Sqrt(dx * dx + dy * dy));
        }
        return Math.Max(nearest / 4, 2);
    }
}
