using System.Collections.Immutable;
using MathNet.Numerics.LinearAlgebra;

namespace EdgeLens.Imaging.Calibration;

/// <summary>
/// Fits lens, print and one pose per photograph to the corners of one or several photographs, distortion and pose together
/// (a homography fitted to a distorted picture would put the distortion into the tilt).
/// </summary>
/// <remarks>
/// Levenberg-Marquardt (Marquardt 1963) on the weighted squares of the corners plus the priors' quadratic forms. First with Cauchy weights, which no
/// share of wrong corners below a half can drag far away; then wrong corners are dropped and the rest is fitted by plain least squares, so that
/// the covariance is that of the estimate: (JᵀWJ / s² + Λ)⁻¹, with s² the residual variance over what the corners' own uncertainties promise.
/// </remarks>
internal static class CardBundle
{
    /// <summary>
    /// A corner farther off than this many standard deviations (length of its two residuals) is wrong: of good ones exp(-4.5² / 2) = 1 in
    /// 25 000 would be, less than one in a hundred photographs.
    /// </summary>
    private const double RejectAt = 4.5;

    /// <summary>Weight 1 / (1 + (r / (2.385 s))²): 95 % efficient for normal errors (Holland and Welsch 1977).</summary>
    private const double CauchyAt = 2.385;

    public sealed record Solution(
        ImmutableArray<CardGeometry> Geometries, ImmutableArray<ImmutableArray<bool>> Used, Matrix<double> Covariance, double VarianceFactor, double ResidualPx, int UsedCount);

    public static Solution Solve(IReadOnlyList<ImmutableArray<CardCorner>> photographs, IReadOnlyList<CardGeometry> start, BundlePriors priors)
    {
        double[][] weights = [.. photographs.Select(p => Enumerable.Repeat(1.0, p.Length).ToArray())];
        CardGeometry[] geometries = [.. start];
        double spread = 0;
        for (int i = 0; i < 12; i++)
        {
            double[][] distances = Distances(photographs, geometries);
            // The length of two normal residuals has its median at 1.1774 standard deviations (Rayleigh).
            double now = Median(distances) / 1.1774;
            // Good to a few percent is enough: what follows settles the spread itself.
            if (i > 2 && Math.Abs(now - spread) < 0.03 * spread) break;
            spread = now;
            for (int k = 0; k < weights.Length; k++)
                for (int j = 0; j < weights[k].Length; j++)
                    weights[k][j] = 1 / (1 + Square(distances[k][j] / (CauchyAt * spread)));
            geometries = Minimise(photographs, weights, geometries, priors, spread * spread, 3);
        }

        double variance = spread * spread;
        for (int i = 0; i < 10; i++)
        {
            double limit = RejectAt * Math.Sqrt(variance);
            double[][] distances = Distances(photographs, geometries);
            bool same = i > 0;
            for (int k = 0; k < weights.Length; k++)
                for (int j = 0; j < weights[k].Length; j++)
                {
                    double w = distances[k][j] <= limit ? 1 : 0;
                    same &= w == weights[k][j];
                    weights[k][j] = w;
                }
            if (same) break;
            geometries = Minimise(photographs, weights, geometries, priors, variance, 50);
            variance = Variance(photographs, weights, geometries, priors, variance);
        }
        return Conclude(photographs, weights, geometries, priors, variance);
    }

    /// <summary>The same corners at the same spread, with other priors: what is known of a lens must not decide which corners are wrong, nor how far all of them scatter.</summary>
    public static Solution Refit(IReadOnlyList<ImmutableArray<CardCorner>> photographs, Solution before, BundlePriors priors)
    {
        double[][] weights = [.. before.Used.Select(used => used.Select(u => u ? 1.0 : 0.0).ToArray())];
        CardGeometry[] geometries = Minimise(photographs, weights, [.. before.Geometries], priors, before.VarianceFactor, 50);
        return Conclude(photographs, weights, geometries, priors, before.VarianceFactor);
    }

    private static Solution Conclude(IReadOnlyList<ImmutableArray<CardCorner>> photographs, double[][] weights, CardGeometry[] geometries, BundlePriors priors, double variance)
    {
        Normal normal = Normal.At(photographs, weights, geometries, priors, variance);
        double squares = 0;
        int used = 0;
        for (int k = 0; k < weights.Length; k++)
            for (int j = 0; j < weights[k].Length; j++)
                if (weights[k][j] > 0)
                {
                    CardCorner c = photographs[k][j];
                    squares += Square(Distance(geometries[k], c) * c.StandardUncertaintyPx);
                    used++;
                }
        return new(
            [.. geometries], [.. weights.Select(w => w.Select(x => x > 0).ToImmutableArray())], Inverse(normal.Matrix), variance,
            Math.Sqrt(squares / Math.Max(1, 2 * used)), used);
    }

    /// <summary>Residual variance over the corners' own, with the degrees of freedom that the fit has really used up: trace of the hat matrix.</summary>
    private static double Variance(IReadOnlyList<ImmutableArray<CardCorner>> photographs, double[][] weights, CardGeometry[] geometries, BundlePriors priors, double variance)
    {
        Normal normal = Normal.At(photographs, weights, geometries, priors, variance);
        double spent = (Inverse(normal.Matrix) * normal.Data).Trace();
        return normal.DataSquares / Math.Max(1, 2 * weights.Sum(w => w.Sum()) - spent);
    }

    private static CardGeometry[] Minimise(
        IReadOnlyList<ImmutableArray<CardCorner>> photographs, double[][] weights, CardGeometry[] geometries, BundlePriors priors, double variance, int iterations)
    {
        // Focal length, distance and tilt can trade against each other with hardly any change of the picture: their valley is 1e-9 as steep as its sides.
        double damping = 1e-12;
        Normal normal = Normal.At(photographs, weights, geometries, priors, variance);
        for (int i = 0; i < iterations; i++)
        {
            Matrix<double> damped = normal.Matrix.Clone();
            for (int j = 0; j < damped.RowCount; j++) damped[j, j] *= 1 + damping;
            Vector<double> step = Inverse(damped) * normal.Gradient;
            CardGeometry[] moved = Moved(geometries, step);
            Normal next = Normal.At(photographs, weights, moved, priors, variance);
            if (next.Cost <= normal.Cost)
            {
                // Cost counts in standard deviations squared: a gain of 1e-9 moves no estimate by a noticeable part of its uncertainty.
                bool done = normal.Cost - next.Cost < 1e-9;
                (geometries, normal, damping) = (moved, next, damping / 100);
                if (done) break;
            }
            else if ((damping *= 100) > 1e8) break;
        }
        return geometries;
    }

    private static CardGeometry[] Moved(CardGeometry[] geometries, Vector<double> step)
    {
        var moved = new CardGeometry[geometries.Length];
        Span<double> one = stackalloc double[CardGeometry.ParameterCount];
        for (int k = 0; k < geometries.Length; k++)
        {
            for (int j = 0; j < CardGeometry.ParameterCount; j++) one[j] = step[Normal.Index(k, j)];
            moved[k] = geometries[k].Moved(one);
        }
        return moved;
    }

    /// <summary>Inverse of a symmetric positive matrix, scaled to a unit diagonal first: the parameters' units differ by many powers of ten.</summary>
    internal static Matrix<double> Inverse(Matrix<double> symmetric)
    {
        Vector<double> scale = symmetric.Diagonal().Map(d => 1 / Math.Sqrt(d));
        Matrix<double> d = Matrix<double>.Build.DenseOfDiagonalVector(scale);
        return d * (d * symmetric * d).Cholesky().Solve(d);
    }

    private static double[][] Distances(IReadOnlyList<ImmutableArray<CardCorner>> photographs, CardGeometry[] geometries) =>
        [.. photographs.Select((p, k) => p.Select(c => Distance(geometries[k], c)).ToArray())];

    private static double Distance(CardGeometry g, CardCorner c)
    {
        Span<double> dx = stackalloc double[CardGeometry.ParameterCount], dy = stackalloc double[CardGeometry.ParameterCount];
        var p = CornerProjection.Project(g, c, dx, dy);
        return Math.Sqrt(Square(c.Pixel.X - p.X) + Square(c.Pixel.Y - p.Y)) / c.StandardUncertaintyPx;
    }

    private static double Median(double[][] values)
    {
        double[] sorted = [.. values.SelectMany(v => v).Order()];
        return Math.Max(sorted[sorted.Length / 2], 1e-9);
    }

    private static double Square(double v) => v * v;

    /// <summary>
    /// A trace of information that pulls nowhere, turn (1 rad)⁻², shift (1 m)⁻², focal length (a factor of e²)⁻²: a billionth of what corners tell, but where
    /// they tell nothing (hidden, all on one line) the answer is a huge uncertainty, not a matrix without inverse.
    /// </summary>
    private static readonly (int Parameter, double Information)[] Trace =
        [(CardGeometry.LnFocal, 0.25), .. Enumerable.Range(0, 3).SelectMany(i => new[] { (CardGeometry.Turn + i, 1.0), (CardGeometry.Shift + i, 1e-6) })];

    /// <summary>Normal equations at a geometry.</summary>
    private sealed record Normal(Matrix<double> Matrix, Matrix<double> Data, Vector<double> Gradient, double Cost, double DataSquares)
    {
        public static int Index(int photograph, int parameter) =>
            parameter < CardGeometry.SharedCount ? parameter : parameter + photograph * CardGeometry.PoseCount;

        public static Normal At(IReadOnlyList<ImmutableArray<CardCorner>> photographs, double[][] weights, CardGeometry[] geometries, BundlePriors priors, double variance)
        {
            const int n = CardGeometry.ParameterCount;
            int size = Index(photographs.Count - 1, n - 1) + 1;
            Matrix<double> data = Matrix<double>.Build.Dense(size, size);
            Vector<double> gradient = Vector<double>.Build.Dense(size);
            double squares = 0;
            Span<double> dx = stackalloc double[n], dy = stackalloc double[n];
            double[] block = new double[n * n], pull = new double[n];
            for (int k = 0; k < photographs.Count; k++)
            {
                Array.Clear(block);
                Array.Clear(pull);
                for (int c = 0; c < photographs[k].Length; c++)
                {
                    if (weights[k][c] == 0) continue;
                    CardCorner corner = photographs[k][c];
                    var p = CornerProjection.Project(geometries[k], corner, dx, dy);
                    double w = weights[k][c] / Square(corner.StandardUncertaintyPx), v = w / variance, rx = corner.Pixel.X - p.X, ry = corner.Pixel.Y - p.Y;
                    squares += w * (rx * rx + ry * ry);
                    for (int i = 0; i < n; i++)
                    {
                        double x = v * dx[i], y = v * dy[i];
                        pull[i] += x * rx + y * ry;
                        for (int j = 0; j <= i; j++) block[i * n + j] += x * dx[j] + y * dy[j];
                    }
                }
                for (int i = 0; i < n; i++)
                {
                    gradient[Index(k, i)] += pull[i];
                    for (int j = 0; j < n; j++) data[Index(k, i), Index(k, j)] += i >= j ? block[i * n + j] : block[j * n + i];
                }
            }

            Matrix<double> all = data.Clone();
            for (int k = 0; k < photographs.Count; k++)
                foreach ((int parameter, double trace) in Trace) all[Index(k, parameter), Index(k, parameter)] += trace;
            double cost = squares / variance;
            Matrix<double> information = priors.Print + priors.Lens;
            Vector<double> off = priors.Mean - BundlePriors.SharedOf(geometries[0]), known = information * off;
            cost += off * known;
            for (int i = 0; i < CardGeometry.SharedCount; i++)
            {
                gradient[i] += known[i];
                for (int j = 0; j < CardGeometry.SharedCount; j++) all[i, j] += information[i, j];
            }
            if (priors.DistanceMm is { } distance)
                for (int k = 0; k < photographs.Count; k++)
                {
                    int z = Index(k, CardGeometry.Shift + 2);
                    double short_ = (distance.Value - geometries[k].PivotInCamera.Z) / distance.StandardUncertainty;
                    cost += short_ * short_;
                    gradient[z] += short_ / distance.StandardUncertainty;
                    all[z, z] += 1 / Square(distance.StandardUncertainty);
                }
            return new(all, data, gradient, cost, squares);
        }
    }
}
