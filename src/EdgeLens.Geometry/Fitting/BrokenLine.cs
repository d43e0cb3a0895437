namespace EdgeLens.Geometry.Fitting;

/// <summary>Two straight lines that meet at <see cref="BreakX"/>: y = y0 + SlopeBefore (x - b) before the break, SlopeAfter after it.</summary>
/// <param name="BreakX">Where the slope changes.</param>
/// <param name="SlopeBefore">dy/dx at smaller x.</param>
/// <param name="SlopeAfter">dy/dx at greater x.</param>
/// <param name="ResidualSd">Standard deviation of the residuals, n - 4 degrees of freedom.</param>
/// <param name="BreakSd">
/// Standard uncertainty of the break, from the curvature of the sum of squares at its least value: the distance at which the sum exceeds it by one residual
/// variance. Infinite when the minimum lies at the end of the search.
/// </param>
public sealed record BrokenLine(double BreakX, double SlopeBefore, double SlopeAfter, double ResidualSd, double BreakSd)
{
    /// <summary>Fits the broken line: for every break on a grid the best two lines (linear least squares), then the best break (Hudson 1966).</summary>
    /// <param name="x">Abscissas in increasing order, at least 6.</param>
    /// <param name="y">Ordinates.</param>
    /// <param name="step">Spacing of the breaks that are tried, same unit as x; the best is refined by a parabola.</param>
    /// <returns>The broken line, or null when there are too few points.</returns>
    public static BrokenLine? Fit(ReadOnlySpan<double> x, ReadOnlySpan<double> y, double step)
    {
        if (x.Length != y.Length) throw new ArgumentException("Abscissas and ordinates must be as many.", nameof(y));
        if (x.Length < 6) return null;
        double from = x[1], to = x[^2];
        int count = (int)Math.Floor((to - from) / step) + 1;
        if (count < 3) return null;
        double[] costs = new double[count];
        int best = 0;
        for (int k = 0; k < count; k++)
        {
            costs[k] = Solve(x, y, from + k * step).Cost;
            if (costs[k] < costs[best]) best = k;
        }
        double variance = costs[best] / (x.Length - 4), at = from + best * step, sd = double.PositiveInfinity;
        if (best > 0 && best < count - 1)
        {
            double second = costs[best - 1] - 2 * costs[best] + costs[best + 1];
            if (second > 0)
            {
                at += step * 0.5 * (costs[best - 1] - costs[best + 1]) / second;
                sd = step * Math.Sqrt(2 * variance / second);
            }
        }
        (double cost, double before, double after) = Solve(x, y, at);
        return new(at, before, after, Math.Sqrt(cost / (x.Length - 4)), sd);
    }

    /// <summary>Least squares in 1, min(0, x - b), max(0, x - b).</summary>
    private static (double Cost, double Before, double After) Solve(ReadOnlySpan<double> x, ReadOnlySpan<double> y, double b)
    {
        double n = x.Length, p = 0, q = 0, pp = 0, qq = 0, s = 0, ps = 0, qs = 0, ss = 0;
        for (int i = 0; i < x.Length; i++)
        {
            double u = Math.Min(0, x[i] - b), v = Math.Max(0, x[i] - b);
            p += u; q += v; pp += u * u; qq += v * v; s += y[i]; ps += u * y[i]; qs += v * y[i]; ss += y[i] * y[i];
        }
        // u v = 0 everywhere, so after taking the means away the 2x2 system is (pp - p²/n, -pq/n; ., qq - q²/n).
        double a = pp - p * p / n, d = qq - q * q / n, c = -p * q / n, e = ps - p * s / n, f = qs - q * s / n, det = a * d - c * c;
        if (!(det > 0)) return (double.PositiveInfinity, 0, 0);
        double before = (e * d - f * c) / det, after = (f * a - e * c) / det;
        return (Math.Max(0, ss - s * s / n - before * e - after * f), before, after);
    }
}
