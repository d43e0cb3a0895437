using EdgeLens.Geometry.Figures;

namespace EdgeLens.Geometry.Fitting;

/// <summary>y = Intercept + Slope x with the standard deviations of both.</summary>
/// <param name="Intercept">At x = 0.</param>
/// <param name="Slope">dy/dx.</param>
/// <param name="InterceptSd">Standard deviation.</param>
/// <param name="SlopeSd">Standard deviation.</param>
/// <param name="Covariance">Of intercept and slope.</param>
/// <param name="ResidualSd">Of a point of weight 1, n - 2 degrees of freedom.</param>
public sealed record StraightLine(double Intercept, double Slope, double InterceptSd, double SlopeSd, double Covariance, double ResidualSd)
{
    /// <summary>The line at x.</summary>
    public double At(double x) => Intercept + Slope * x;

    /// <summary>Standard deviation of the line at x.</summary>
    public double SdAt(double x) => Math.Sqrt(Math.Max(0, InterceptSd * InterceptSd + x * x * SlopeSd * SlopeSd + 2 * x * Covariance));

    /// <summary>Weighted least squares with errors in y only, centred sums (a subtraction of large sums loses digits: NIST StRD notes).</summary>
    /// <param name="x">At least 3 abscissas, not all alike.</param>
    /// <param name="y">Ordinates.</param>
    /// <param name="weights">Relative weights, all above 0, or empty for equal ones; deviations are scaled by the residuals.</param>
    /// <returns>The line, or the refusal <c>line-too-few-points</c>, <c>line-degenerate</c>.</returns>
    public static Outcome<StraightLine> Fit(ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> weights = default)
    {
        if (x.Length != y.Length || (weights.Length != 0 && weights.Length != x.Length)) throw new ArgumentException("Abscissas, ordinates and weights must be as many.", nameof(y));
        int n = x.Length;
        if (n < 3) return new Refusal("line-too-few-points", "There are too few points for a line", "More points are needed.", n, 3, "points");
        double sw = 0, mx = 0, my = 0;
        for (int i = 0; i < n; i++)
        {
            double w = weights.Length == 0 ? 1 : weights[i];
            sw += w; mx += w * x[i]; my += w * y[i];
        }
        mx /= sw;
        my /= sw;
        double xx = 0, xy = 0;
        for (int i = 0; i < n; i++)
        {
            double w = weights.Length == 0 ? 1 : weights[i];
            xx += w * (x[i] - mx) * (x[i] - mx);
            xy += w * (x[i] - mx) * (y[i] - my);
        }
        if (!(xx > 0)) return new Refusal("line-degenerate", "All points have the same abscissa", "Points at different places are needed.");
        double slope = xy / xx, intercept = my - slope * mx, squares = 0;
        for (int i = 0; i < n; i++)
        {
            double w = weights.Length == 0 ? 1 : weights[i], r = y[i] - my - slope * (x[i] - mx);
            squares += w * r * r;
        }
        double sd = Math.Sqrt(squares / (n - 2)), slopeSd = sd / Math.Sqrt(xx);
        return new StraightLine(intercept, slope, Math.Sqrt(sd * sd / sw + mx * mx * slopeSd * slopeSd), slopeSd, -mx * slopeSd * slopeSd, sd);
    }
}
