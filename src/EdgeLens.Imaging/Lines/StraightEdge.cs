using EdgeLens.Geometry.Fitting;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Photographs;

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
    // The steel's level may change along the line within this distance: texture of the ground surface, mirrored surroundings.
    private const double KnotPx = 16;
    private const double GridPx = 0.5;

    // Four radii of the phone's smoothing, in cells: what it takes from farther off is below a thousandth.
    private const int Band = 10;
    private const int Margin = 5;

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
        LineStrip strip = new(picture, stretch, inwardPx, outwardPx);
        Profile profile = new(strip, sharpening.Amount);
        int knots = Math.Max(2, (int)Math.Round(stretch.LengthPx / KnotPx) + 1), n = Profile.Fixed + knots;
        (double ground, double steel) = profile.Levels();
        double middle = Math.Log(Math.Sqrt(leastBlurPx * greatestBlurPx));
        double[] start = new double[n], probe = new double[n], lower = new double[n], upper = new double[n];
        for (int i = 0; i < n; i++)
            (start[i], probe[i], lower[i], upper[i]) = i switch
            {
                0 => (0, 1e-2, -4, 4),
                1 => (0, 1e-2, -6, 6),
                2 => (middle, 1e-2, Math.Log(leastBlurPx), Math.Log(greatestBlurPx)),
                3 or 4 => (ground, 1e-4, 0, 1),
                5 or 6 => (0, 1e-4, -0.2, 0.2),
                _ => (steel, 1e-4, 0, 2),
            };
        DampedLeastSquares fit = DampedLeastSquares.Solve(profile.Residuals, strip.Rows * strip.Columns, start, probe, lower, upper);
        double half = stretch.LengthPx / 2, sd = Math.Sqrt(fit.Variance), slope = fit.Parameters[1] / half;
        double step = fit.Parameters.AsSpan(Profile.Fixed).ToArray().Average(f => Tone(f)) - (Tone(fit.Parameters[3]) + Tone(fit.Parameters[4])) / 2;
        bool atLimit = fit.Parameters[2] > upper[2] - 1e-3;
        return new(stretch.Moved(fit.Parameters[0], slope), sd * fit.UnitSd(1) / half, sd * fit.UnitSd(0), Math.Exp(fit.Parameters[2]), atLimit, sd, step);
    }

    private static double Tone(double light) => 255 * FastTone.Of(light);

    /// <summary>The model over one strip.</summary>
    private sealed class Profile
    {
        public const int Fixed = 7;

        private readonly LineStrip _strip;
        private readonly double[] _grid;
        private readonly double[] _weights;
        private readonly double[] _tones;

        public Profile(LineStrip strip, double amount)
        {
            _strip = strip;
            int cells = (int)((strip.Columns - 1 + 2 * Margin) / GridPx) + 1;
            _grid = [.. Enumerable.Range(0, cells).Select(i => -strip.InwardPx - Margin + i * GridPx)];
            _tones = new double[cells];
            _weights = Sharpened(amount);
        }

        /// <summary>Ground and steel, linear, from the strip's rims.</summary>
        public (double Ground, double Steel) Levels()
        {
            double inner = 0, outer = 0;
            for (int t = 0; t < _strip.Rows; t++)
            {
                ReadOnlySpan<double> row = _strip.Row(t);
                (inner, outer) = (inner + row[0] + row[1], outer + row[^1] + row[^2]);
            }
            double n = 2 * _strip.Rows * 255.0;
            return (LinearLight.Decode(Math.Clamp(outer / n, 0, 1)), LinearLight.Decode(Math.Clamp(inner / n, 0, 1)));
        }

        public void Residuals(ReadOnlySpan<double> p, Span<double> residuals)
        {
            double sigma = Math.Exp(p[2]);
            int knots = p.Length - Fixed, columns = _strip.Columns, cells = _grid.Length;
            for (int t = 0; t < _strip.Rows; t++)
            {
                double share = Math.Min(1, t / _strip.Stretch.LengthPx), at = p[0] + p[1] * (2 * share - 1);
                double ground = p[3] + share * (p[4] - p[3]), ramp = 0.1 * (p[5] + share * (p[6] - p[5]));
                double place = share * (knots - 1);
                int k = Math.Min(knots - 2, (int)place);
                double steel = p[Fixed + k] + (place - k) * (p[Fixed + k + 1] - p[Fixed + k]);
                for (int i = 0; i < cells; i++)
                {
                    double z = at - _grid[i], step = GaussianStep.At(z / sigma), bell = Math.Exp(-0.5 * z * z / (sigma * sigma)) * sigma / Math.Sqrt(2 * Math.PI);
                    _tones[i] = 255 * FastTone.Of(ground + (steel - ground) * step + ramp * (z * step + bell));
                }
                ReadOnlySpan<double> row = _strip.Row(t);
                for (int j = 0; j < columns; j++)
                {
                    double sum = 0;
                    ReadOnlySpan<double> near = _tones.AsSpan((int)((j + Margin) / GridPx) - Band, _weights.Length);
                    for (int i = 0; i < near.Length; i++) sum += _weights[i] * near[i];
                    residuals[t * columns + j] = sum - row[j];
                }
            }
        }

        /// <summary>Weights about a column that take the fine profile to its sharpened tone.</summary>
        private static double[] Sharpened(double amount)
        {
            double[] weights = [.. Enumerable.Range(-Band, 2 * Band + 1).Select(i => Math.Exp(-0.5 * Math.Pow(i * GridPx / Sharpening.RadiusPx, 2)))];
            double sum = weights.Sum();
            for (int i = 0; i < weights.Length; i++) weights[i] *= -amount / sum;
            weights[Band] += 1 + amount;
            return weights;
        }
    }
}
