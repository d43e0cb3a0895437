using System.Numerics;

namespace EdgeLens.Imaging.Edges;

/// <summary>One place of an edge: what the profile across it depends on besides optics and light.</summary>
/// <param name="OffsetPx">Silhouette along the outward normal, from where the block was thought to be.</param>
/// <param name="RadiusPx">Radius of the rounding between face and lateral surface.</param>
/// <param name="FaceLevel">Linear brightness of the face at the edge, share of full scale.</param>
/// <param name="FaceSlope">Its change per pixel outwards.</param>
/// <param name="GroundLevel">Linear brightness of the ground.</param>
public readonly record struct EdgeShape(double OffsetPx, double RadiusPx, double FaceLevel, double FaceSlope, double GroundLevel);

/// <summary>
/// Forward model of the brightness across a cutting edge, from inside the steel outwards: face, rounding with its lit band, ground;
/// blurred in linear light, then toned and sharpened as a phone does. Derivation: docs/physics/edge-profile.md.
/// </summary>
/// <remarks>Not thread-safe: owns scratch rows; one per worker.</remarks>
public sealed class EdgeProfileModel
{
    /// <summary>Pixels on either side of the silhouette that take part in a fit: holds the whole of a rounding of 60 µm at 10 µm per pixel, and its blur.</summary>
    public const double ReachPx = 9;

    // A quarter of the smallest blur that matters (see Place for the error); the pads hold the sharpening's kernel (3.6 px).
    private const double StepPx = 0.25;
    private const double PadPx = 4;
    private const int Taps = (int)(3 * Sharpening.RadiusPx / StepPx);
    private static readonly double Start = -(ReachPx + PadPx);
    private static readonly int Count = (int)Math.Round(2 * (ReachPx + PadPx) / StepPx) + 1;
    private static readonly double[] Kernel = SharpeningKernel();
    private readonly double[] _toned = new double[Count];
    private readonly double[] _profile = new double[Count];
    private readonly double[] _smooth = new double[Count - 2 * Taps];

    /// <summary>The profile's tone values (0..1) on the model's own grid, valid until the next call.</summary>
    /// <param name="shape">What is there.</param>
    /// <param name="optics">Of the photograph.</param>
    /// <param name="light">How the rounding shows the panels here.</param>
    /// <param name="isLit">Whether the rounding mirrors a panel at all: an edge that faces none shows no band.</param>
    public ReadOnlySpan<double> Evaluate(in EdgeShape shape, in EdgeOptics optics, in RoundingLight light, bool isLit)
    {
        double sigma = optics.BlurSigmaPx, radius = shape.RadiusPx, spread = RoundingLight.DarkSpread * radius;
        double fall = Math.Sqrt(sigma * sigma + spread * spread), dark = light.DarkCentre * radius;
        double above = isLit ? Math.Max(0, light.LitLevel - shape.FaceLevel) : 0;
        double bandInner = (1 - light.BandStart) * radius, bandOuter = (1 - light.BandEnd) * radius;
        for (int i = 0; i < Count; i++)
        {
            double x = Start + i * StepPx - shape.OffsetPx;
            double face = shape.FaceLevel + shape.FaceSlope * Math.Min(x, 0);
            double linear = shape.GroundLevel + (face - shape.GroundLevel) * GaussianStep.At(-(x + dark) / fall);
            if (above > 0) linear += above * (GaussianStep.At((x + bandInner) / sigma) - GaussianStep.At((x + bandOuter) / sigma));
            _toned[i] = FastTone.Of(linear);
        }
        double amount = optics.Sharpening.Amount;
        if (amount == 0) return _toned;
        // The copy is smoothed by adding shifted rows, a vector at a time; beyond the grid the end values go on (the pads are wider than the kernel).
        _smooth.AsSpan().Clear();
        for (int k = -Taps; k <= Taps; k++) AddScaled(_toned.AsSpan(Taps + k, Count - 2 * Taps), Kernel[k + Taps], _smooth);
        for (int i = Taps; i < Count - Taps; i++) _profile[i] = Math.Clamp(_toned[i] + amount * (_toned[i] - _smooth[i - Taps]), 0, 1);
        return _profile;
    }

    private static void AddScaled(ReadOnlySpan<double> row, double weight, Span<double> sum)
    {
        int i = 0, width = Vector<double>.Count;
        for (; i <= row.Length - width; i += width) (new Vector<double>(sum[i..]) + weight * new Vector<double>(row[i..])).CopyTo(sum[i..]);
        for (; i < row.Length; i++) sum[i] += weight * row[i];
    }

    /// <summary>Where a distance from the supposed silhouette falls on the grid, for cubic interpolation.</summary>
    internal static GridPlace Place(double distancePx)
    {
        double p = (distancePx - Start) / StepPx;
        int i = Math.Clamp((int)p, 1, Count - 3);
        double t = p - i;
        // Catmull-Rom: error of order (StepPx / sigma)^4, below a tenth of a grey level.
        return new(i - 1, 0.5 * t * (-1 + t * (2 - t)), 1 + 0.5 * t * t * (-5 + 3 * t), 0.5 * t * (1 + t * (4 - 3 * t)), 0.5 * t * t * (t - 1));
    }

    private static double[] SharpeningKernel()
    {
        double[] kernel = new double[2 * Taps + 1];
        double sum = 0;
        for (int k = -Taps; k <= Taps; k++) sum += kernel[k + Taps] = Math.Exp(-0.5 * Math.Pow(k * StepPx / Sharpening.RadiusPx, 2));
        for (int k = 0; k < kernel.Length; k++) kernel[k] /= sum;
        return kernel;
    }

    /// <summary>Four neighbours on the grid and their weights.</summary>
    internal readonly record struct GridPlace(int First, double W0, double W1, double W2, double W3)
    {
        /// <summary>Interpolated value of a profile.</summary>
        public double In(ReadOnlySpan<double> profile) =>
            W0 * profile[First] + W1 * profile[First + 1] + W2 * profile[First + 2] + W3 * profile[First + 3];
    }
}
