using EdgeLens.Geometry.Fitting;
using EdgeLens.Imaging.Edges;

namespace EdgeLens.Imaging.Lines;

/// <summary>A straight edge fitted to all pixels of a stretch at once.</summary>
/// <param name="Line">The fitted line, same length and outside as the stretch it was sought along.</param>
/// <param name="AngleSigmaRad">Standard uncertainty of its direction from the fit.</param>
/// <param name="OffsetSigmaPx">Standard uncertainty of its place at the middle from the fit.</param>
/// <param name="BlurSigmaPx">Blur that fits best.</param>
/// <param name="BlurAtLimit">True when the blur went to the upper end of its range: then it is no edge that was fitted but a slow change of light.</param>
/// <param name="ResidualTone">Root mean square residual, tones of 255.</param>
/// <param name="StepTone">Mean height of the step, tones of 255, steel less ground.</param>
public sealed record StraightEdge(
    Stretch Line, double AngleSigmaRad, double OffsetSigmaPx, double BlurSigmaPx, bool BlurAtLimit, double ResidualTone, double StepTone);

/// <summary>
/// Fits a straight, blurred step between ground and steel: brightness in linear light, tone curve, the phone's sharpening, least squares in tones.
/// The steel may be brighter or darker than the ground: a grazing bevel mirrors whatever lies behind it.
/// </summary>
/// <remarks>
/// Model across the line at place t along it, z pixels inside: L = g(t) + (f(t) - g(t)) Φ(z/σ) + m(t) R(z, σ), with g and m linear in t, f
/// piecewise linear, Φ the normal step and R the normal ramp (a surface whose light changes with depth). What is sought, offset and slope of the
/// line, is common to all rows. docs/physics/angles.md.
/// </remarks>
public static class StraightEdgeFitter
{
    /// <summary>Fits.</summary>
    /// <param name="picture">The photograph.</param>
    /// <param name="stretch">Where the line is thought to be, within about 3 px and 3°.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <param name="inwardPx">Depth of steel that takes part.</param>
    /// <param name="outwardPx">Ground that takes part.</param>
    /// <param name="leastBlurPx">Of the range in which the blur is sought.</param>
    /// <param name="greatestBlurPx">Of the range.</param>
    public static StraightEdge Fit(TonePicture picture, Stretch stretch, Sharpening sharpening, int inwardPx, int outwardPx, double leastBlurPx, double greatestBlurPx)
    {
        EdgeStripModel model = new(new LineStrip(picture, stretch, inwardPx, outwardPx), sharpening.Amount);
        return model.Line(model.Solve(leastBlurPx, greatestBlurPx), greatestBlurPx);
    }

    // Starts around the stretch: as far off as a line may be found that was sought in noise.
    private static readonly double[] StartOffsetsPx = [-2, 0, 2];
    private static readonly double[] StartTurns = [-Math.Tan(5 * Math.PI / 180), 0, Math.Tan(5 * Math.PI / 180)];

    // Fits that lie nearer to each other than this are one minimum that was reached twice.
    private const double SamePx = 0.15;
    private const double SameRad = 0.005;

    /// <summary>
    /// Fits a faint edge from several starts over the same strip. A step of few tones leaves several minima of the sum of squares; each counts by its likelihood, so that the stated
    /// uncertainties hold both the width of a minimum and how far the minima lie apart, and noise that neighbouring pixels share (JPEG, the steel's texture) widens them.
    /// </summary>
    /// <remarks>
    /// Weight of a minimum (Laplace's approximation; MacKay, Information Theory, Inference and Learning Algorithms, 2003, ch. 27): exp(-ΔS / 2 s²) σ_offset σ_slope. Mean and variance
    /// are those of the mixture (law of total variance).
    /// </remarks>
    /// <param name="picture">The photograph.</param>
    /// <param name="stretch">Where the line is thought to be, within about 3 px and 5°.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <param name="inwardPx">Depth of steel that takes part.</param>
    /// <param name="outwardPx">Ground that takes part.</param>
    /// <param name="leastBlurPx">Of the range in which the blur is sought.</param>
    /// <param name="greatestBlurPx">Of the range.</param>
    public static StraightEdge FitFaint(TonePicture picture, Stretch stretch, Sharpening sharpening, int inwardPx, int outwardPx, double leastBlurPx, double greatestBlurPx)
    {
        LineStrip strip = new(picture, stretch, inwardPx, outwardPx);
        EdgeStripModel model = new(strip, sharpening.Amount);
        List<DampedLeastSquares> minima =
        [
            // A model each: it works in a buffer of its own.
            .. StartOffsetsPx.SelectMany(_ => StartTurns, (offset, turn) => (offset, turn)).AsParallel().AsOrdered()
                .Select(s => new EdgeStripModel(strip, sharpening.Amount).Solve(leastBlurPx, greatestBlurPx, s.offset, s.turn))
                .Where(fit => double.IsFinite(fit.UnitSd(0)) && double.IsFinite(fit.UnitSd(1))),
        ];
        if (minima.Count == 0) return Fit(picture, stretch, sharpening, inwardPx, outwardPx, leastBlurPx, greatestBlurPx);
        minima.Sort((a, b) => a.SumOfSquares.CompareTo(b.SumOfSquares));
        DampedLeastSquares best = minima[0];
        double half = stretch.LengthPx / 2, variance = best.Variance * model.Correlation(best);
        WeighedMoments offsets = new(), slopes = new();
        List<(double Offset, double Slope)> counted = [];
        foreach (DampedLeastSquares fit in minima)
        {
            double offset = fit.Parameters[0], slope = fit.Parameters[1] / half, byOffset = variance * Math.Pow(fit.UnitSd(0), 2), bySlope = variance * Math.Pow(fit.UnitSd(1) / half, 2);
            if (counted.Exists(c => Math.Abs(c.Offset - offset) < SamePx && Math.Abs(c.Slope - slope) < SameRad)) continue;
            counted.Add((offset, slope));
            double weight = Math.Exp((best.SumOfSquares - fit.SumOfSquares) / (2 * variance)) * Math.Sqrt(byOffset * bySlope);
            offsets.Add(weight, offset, byOffset);
            slopes.Add(weight, slope, bySlope);
        }
        return model.Line(best, greatestBlurPx) with
        {
            Line = stretch.Moved(offsets.Mean, slopes.Mean),
            AngleSigmaRad = slopes.Sigma,
            OffsetSigmaPx = offsets.Sigma,
        };
    }
}
