using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Photographs;
using Mat = OpenCvSharp.Mat;

namespace EdgeLens.Measuring.FaceView;

/// <summary>
/// The line across the blade at its heel where the ground face ends and the neck begins: a step in brightness, since the two mirror different parts of
/// the room. It does not wear, and unlike the nearly parallel sides of the heel it tells where the blade lies along its axis.
/// </summary>
/// <remarks>
/// Brightness averaged across the middle of the blade is followed along z. At a candidate the face's side and the neck's are straight lines, each fitted
/// outside the blur; the step is their difference there. The first significant step behind a face that is straight to within noise counts, and
/// the half level between the two curves gives its place. Where no step stands out (a soft heel, an unlucky light), there is no landmark.
/// </remarks>
internal static class FaceEndFinder
{
    // Profile: a step of about a pixel; the heel is found to some tenths of a millimetre; a quarter of a millimetre of face tells its slope, half of that the neck's, which bends sooner.
    private const double StepMm = 0.01;
    private const double SearchMm = 0.7;
    private const double SideMm = 0.25;
    private const double NeckMm = 0.12;

    // The blurred step and the seam that sharpening leaves beside it reach this many standard deviations of the blur.
    private const double GapBlurs = 3.5;

    // The middle of the blade only: edges and their light stay out. Samples across it lie about a pixel apart.
    private const double HalfWidthShare = 0.6;
    private const int AcrossSamples = 41;

    // A step counts from this many standard deviations of the averaged brightness, so that grinding marks do not.
    private const double LeastStepSigmas = 5;

    // ... and from this share of the face's level: below it dirt or a smudge could make it.
    private const double LeastStepShare = 0.03;

    // The half level lies off by up to this where the neck's brightness bends within the blur.
    private const double PlaceSigmaPx = 0.25;

    /// <summary>Finds the line.</summary>
    /// <param name="grey">The photograph's luma, borrowed.</param>
    /// <param name="calibration">Of the photograph.</param>
    /// <param name="outline">In its frame, whose z = 0 is the heel to within some tenths of a millimetre.</param>
    /// <param name="heightMm">Of the face over the card.</param>
    /// <param name="blurMm">Standard deviation of the blur in the plane of the face.</param>
    /// <returns>z in the outline's frame, or null.</returns>
    public static Measured? Find(Mat grey, CardCalibration calibration, Outline outline, double heightMm, double blurMm)
    {
        double[] light = Profile(grey, calibration, outline, heightMm);
        int side = (int)(SideMm / StepMm), gap = (int)Math.Ceiling(GapBlurs * blurMm / StepMm);
        double[] z = [.. Enumerable.Range(0, light.Length).Select(i => FirstZ + i * StepMm)];
        double noise = Noise(light, z, light.Length - side, side);
        int neckSide = (int)(NeckMm / StepMm);
        (double Score, int At, double Left, double Right) best = (0, -1, 0, 0);
        // From the toe backwards: the face is even, so that the first step met is its end; steps farther back are the neck's own.
        for (int c = light.Length - side - gap - 1; c >= neckSide + gap && (best.At < 0 || best.At - c <= 2 * gap); c--)
        {
            Range face = (c + gap)..(c + gap + side), neck = (c - gap - neckSide)..(c - gap);
            if (PolynomialFit.Of(z.AsSpan(face), light.AsSpan(face), 1, z[c]) is not { } f || PolynomialFit.Of(z.AsSpan(neck), light.AsSpan(neck), 1, z[c]) is not { } n) continue;
            if (Spread(f, light, z, face) > 2 * noise) continue;
            double right = f.At(z[c]), left = n.At(z[c]), step = Math.Abs(right - left);
            // The neck's line, extrapolated over the gap, is worth about twice its points' noise.
            double score = step / (2 * Math.Max(noise, Spread(n, light, z, neck)));
            if (step > LeastStepShare * right && score > LeastStepSigmas / 2 && score > best.Score) best = (score, c, left, right);
        }
        if (best.At < 0) return null;
        return HalfLevel(light, best, gap) is { } place
            ? new Measured(FirstZ + place * StepMm, Quadrature.Sum(PlaceSigmaPx * MmPerPx(calibration, outline, heightMm), noise / Math.Abs(best.Right - best.Left) * Math.Sqrt(2 * Math.PI) * blurMm))
            : null;
    }

    private static double FirstZ => -SearchMm - SideMm;

    private static double MmPerPx(CardCalibration calibration, Outline outline, double heightMm) => calibration.MmPerPx(new BladeProjection(calibration, outline, heightMm).OnCard(new(0, 0)), heightMm);

    private static double[] Profile(Mat grey, CardCalibration calibration, Outline outline, double heightMm)
    {
        double[] near = [.. outline.Points.Where(p => p.Position.ZMm is > 0.1 and < 0.6).Select(p => p.Position.XMm)];
        double left = near.Length == 0 ? 0.3 : near.Max(), right = near.Length == 0 ? -0.3 : near.Min(), middle = (left + right) / 2, half = HalfWidthShare * (left - right) / 2;
        int count = (int)(2 * (SearchMm + SideMm) / StepMm) + 1;
        double[] light = new double[count];
        BladeProjection projection = new(calibration, outline, heightMm);
        for (int i = 0; i < count; i++)
        {
            double sum = 0;
            for (int k = 0; k < AcrossSamples; k++)
            {
                Vector2 place = new(middle + half * (2.0 * k / (AcrossSamples - 1) - 1), FirstZ + i * StepMm);
                sum += LinearLight.At(grey, projection.Pixel(place));
            }
            light[i] = sum / AcrossSamples;
        }
        return light;
    }

    private static double Noise(double[] light, double[] z, int from, int count)
    {
        Range r = from..(from + count);
        return PolynomialFit.Of(z.AsSpan(r), light.AsSpan(r), 2, z[from]) is { } fit ? Math.Max(1e-5, Spread(fit, light, z, r)) : double.MaxValue;
    }

    private static double Spread(PolynomialFit fit, double[] light, double[] z, Range range)
    {
        (int from, int count) = range.GetOffsetAndLength(light.Length);
        double sum = 0;
        for (int i = from; i < from + count; i++) sum += Math.Pow(light[i] - fit.At(z[i]), 2);
        return Math.Sqrt(sum / count);
    }

    /// <summary>Where the profile crosses the half level within the blur about the candidate, in steps; null when it does not.</summary>
    private static double? HalfLevel(double[] light, (double Score, int At, double Left, double Right) best, int gap)
    {
        double half = (best.Left + best.Right) / 2, sign = Math.Sign(best.Right - best.Left);
        double? nearest = null;
        for (int i = best.At - gap; i < best.At + gap; i++)
        {
            double a = sign * (light[i] - half), b = sign * (light[i + 1] - half);
            if (a > 0 || b <= 0) continue;
            double place = i + a / (a - b);
            if (nearest is not { } n || Math.Abs(place - best.At) < Math.Abs(n - best.At)) nearest = place;
        }
        return nearest;
    }
}
