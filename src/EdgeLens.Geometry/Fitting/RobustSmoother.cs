namespace EdgeLens.Geometry.Fitting;

/// <summary>How a residual loses weight.</summary>
public enum RobustLoss
{
    /// <summary>Huber 1964: weight 1 up to 1.345 scales, then falling as 1/r: 95 % efficient on normal errors, every point keeps a say.</summary>
    Huber,

    /// <summary>Tukey's biweight: weight 0 beyond 4.685 scales: 95 % efficient on normal errors, far points have no say.</summary>
    Tukey,
}

/// <summary>Local polynomial through noisy values along an arc that does not follow short defects.</summary>
/// <remarks>
/// Cleveland, J. Am. Stat. Assoc. 74 (1979) 829-836 with equal weights in the window: a defect that fills less than about a third of the window loses its say,
/// a bend on the scale of the window stays. Scale: 1.4826 MAD of the window's residuals (normal consistent), not below the stated noise.
/// </remarks>
public static class RobustSmoother
{
    /// <summary>
    /// Iterations of least absolute values before Tukey's weights: from plain least squares the scale starts so wide that a defect of a fifth of the window keeps
    /// its weight, and the reweighting settles on it.
    /// </summary>
    private const int AbsoluteIterations = 10;

    /// <summary>Iterations of reweighting; the weights settle in 5 to 10, more change the curve by less than a hundredth of the scale.</summary>
    private const int Iterations = 12;

    /// <summary>Change of every weight below which the curve stands.</summary>
    private const double Settled = 0.01;

    /// <summary>The smooth value at every abscissa.</summary>
    /// <param name="x">Increasing.</param>
    /// <param name="y">Values.</param>
    /// <param name="halfWindow">Points within this distance of an abscissa take part, same unit as x.</param>
    /// <param name="degree">0 to 4; lowered where the window has too few points.</param>
    /// <param name="noise">Standard deviation of a value: floor of the robust scale, so that an exact stretch does not turn its neighbours into defects.</param>
    /// <param name="loss">How far points lose their say.</param>
    public static double[] Smooth(ReadOnlySpan<double> x, ReadOnlySpan<double> y, double halfWindow, int degree, double noise, RobustLoss loss)
    {
        if (x.Length != y.Length) throw new ArgumentException("Abscissas and values must be as many.", nameof(y));
        double[] smooth = new double[x.Length];
        int first = 0, end = 0;
        for (int i = 0; i < x.Length; i++)
        {
            while (x[first] < x[i] - halfWindow) first++;
            while (end < x.Length && x[end] <= x[i] + halfWindow) end++;
            smooth[i] = FitAt(x[first..end], y[first..end], x[i], degree, noise, loss)?.At(x[i]) ?? y[i];
        }
        return smooth;
    }

    /// <summary>The robust polynomial of one window.</summary>
    /// <param name="x">Abscissas of the window.</param>
    /// <param name="y">Values.</param>
    /// <param name="origin">Origin of the polynomial.</param>
    /// <param name="degree">0 to 4; lowered when there are fewer than degree + 2 points.</param>
    /// <param name="noise">Floor of the robust scale.</param>
    /// <param name="loss">How far points lose their say.</param>
    /// <returns>The fit, or null for fewer than 2 points.</returns>
    public static PolynomialFit? FitAt(ReadOnlySpan<double> x, ReadOnlySpan<double> y, double origin, int degree, double noise, RobustLoss loss)
    {
        if (x.Length < 2) return null;
        degree = Math.Min(degree, x.Length - 2);
        double[] weights = new double[x.Length], size = new double[x.Length];
        Array.Fill(weights, 1);
        PolynomialFit? fit = PolynomialFit.Of(x, y, degree, origin, weights);
        for (int k = 0; k < AbsoluteIterations && loss == RobustLoss.Tukey && fit is not null; k++)
        {
            double floor = 0;
            for (int i = 0; i < x.Length; i++) floor = Math.Max(floor, size[i] = Math.Abs(y[i] - fit.At(x[i])));
            // An exact fit needs no weights; below a thousandth of the greatest residual (or the noise) all are alike.
            floor = Math.Max(noise, 1e-3 * floor);
            if (floor <= 0) break;
            for (int i = 0; i < x.Length; i++) weights[i] = floor / Math.Max(floor, size[i]);
            fit = PolynomialFit.Of(x, y, degree, origin, weights) ?? fit;
        }
        for (int k = 0; k < Iterations && fit is not null; k++)
        {
            for (int i = 0; i < x.Length; i++) size[i] = Math.Abs(y[i] - fit.At(x[i]));
            double scale = Math.Max(noise, 1.4826 * Median(size));
            if (scale <= 0) break;
            double change = 0;
            for (int i = 0; i < x.Length; i++)
            {
                double weight = Weight(size[i] / scale, loss);
                change = Math.Max(change, Math.Abs(weight - weights[i]));
                weights[i] = weight;
            }
            if (change < Settled) break;
            fit = PolynomialFit.Of(x, y, degree, origin, weights) ?? fit;
        }
        return fit;
    }

    /// <summary>Weight of a residual, given in scales.</summary>
    public static double Weight(double residualInScales, RobustLoss loss)
    {
        double r = Math.Abs(residualInScales);
        if (loss == RobustLoss.Huber) return r <= 1.345 ? 1 : 1.345 / r;
        double t = r / 4.685;
        return t >= 1 ? 0 : (1 - t * t) * (1 - t * t);
    }

    /// <summary>Running median, of the finite values among the neighbours; the upper of the middle two for an even count.</summary>
    /// <param name="values">Any of them may be not a number.</param>
    /// <param name="reach">Neighbours to either side.</param>
    /// <param name="leastFinite">With fewer finite ones the result is not a number.</param>
    public static double[] RunningMedian(double[] values, int reach, int leastFinite = 1)
    {
        ArgumentNullException.ThrowIfNull(values);
        double[] calm = new double[values.Length];
        for (int i = 0; i < calm.Length; i++)
        {
            double[] near = [.. values[Math.Max(0, i - reach)..Math.Min(values.Length, i + reach + 1)].Where(double.IsFinite)];
            Array.Sort(near);
            calm[i] = near.Length < leastFinite ? double.NaN : near[near.Length / 2];
        }
        return calm;
    }

    /// <summary>Middle value; mean of the middle two for an even count.</summary>
    public static double Median(ReadOnlySpan<double> values)
    {
        if (values.Length == 0) throw new ArgumentException("An empty set has no median.", nameof(values));
        double[] sorted = values.ToArray();
        Array.Sort(sorted);
        int m = sorted.Length / 2;
        return sorted.Length % 2 == 1 ? sorted[m] : 0.5 * (sorted[m - 1] + sorted[m]);
    }
}
