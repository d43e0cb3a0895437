namespace EdgeLens.Geometry.Fitting;

/// <summary>Residuals of a model: fills the second span from the parameters in the first.</summary>
public delegate void ResidualFunction(ReadOnlySpan<double> parameters, Span<double> residuals);

/// <summary>Non-linear least squares with box limits: Levenberg-Marquardt, derivatives by central differences.</summary>
/// <param name="Parameters">At the least sum of squares.</param>
/// <param name="SumOfSquares">There.</param>
/// <param name="ResidualCount">Number of residuals.</param>
/// <remarks>Marquardt, J. SIAM 11 (1963) 431-441. For problems of up to some twenty parameters.</remarks>
public sealed record DampedLeastSquares(double[] Parameters, double SumOfSquares, int ResidualCount)
{
    private double[] _factor = [];

    /// <summary>Mean square residual, n - p degrees of freedom.</summary>
    public double Variance => SumOfSquares / Math.Max(1, ResidualCount - Parameters.Length);

    /// <summary>Root of the diagonal of (JᵀJ)⁻¹: the standard deviation of a parameter when residuals have standard deviation 1; infinite where the data do not carry it.</summary>
    public double UnitSd(int parameter)
    {
        if (_factor.Length == 0) return double.PositiveInfinity;
        double[] e = new double[Parameters.Length];
        e[parameter] = 1;
        SmallCholesky.Solve(_factor, e.Length, e);
        return Math.Sqrt(Math.Max(0, e[parameter]));
    }

    /// <summary>Solves.</summary>
    /// <param name="residuals">The model.</param>
    /// <param name="count">Number of residuals.</param>
    /// <param name="start">First guess, inside the limits.</param>
    /// <param name="probe">Step of the differences for each parameter: small against its effect's curvature, large against rounding.</param>
    /// <param name="lower">Least values, or empty.</param>
    /// <param name="upper">Greatest values, or empty.</param>
    /// <param name="iterations">At most.</param>
    public static DampedLeastSquares Solve(ResidualFunction residuals, int count, ReadOnlySpan<double> start, ReadOnlySpan<double> probe,
        ReadOnlySpan<double> lower = default, ReadOnlySpan<double> upper = default, int iterations = 30)
    {
        ArgumentNullException.ThrowIfNull(residuals);
        int n = start.Length;
        double[] x = start.ToArray(), trial = new double[n], r = new double[count], tried = new double[count];
        double[][] jacobian = [.. Enumerable.Range(0, n).Select(_ => new double[count])];
        double[] normal = new double[n * n], factor = new double[n * n], gradient = new double[n];
        double damping = 1e-3;
        residuals(x, r);
        double sum = Squares(r);
        for (int k = 0; k < iterations; k++)
        {
            Linearise(residuals, x, probe, r, jacobian, normal, gradient);
            bool improved = false;
            double gain = 0;
            for (int attempt = 0; attempt < 8 && !improved; attempt++)
            {
                normal.CopyTo(factor, 0);
                for (int i = 0; i < n; i++) factor[i * n + i] = factor[i * n + i] * (1 + damping) + 1e-30;
                gradient.CopyTo(trial, 0);
                if (!SmallCholesky.TryFactor(factor, n)) { damping *= 10; continue; }
                SmallCholesky.Solve(factor, n, trial);
                for (int i = 0; i < n; i++)
                {
                    trial[i] = x[i] - trial[i];
                    if (lower.Length > 0) trial[i] = Math.Max(trial[i], lower[i]);
                    if (upper.Length > 0) trial[i] = Math.Min(trial[i], upper[i]);
                }
                residuals(trial, tried);
                double next = Squares(tried);
                if (!(next < sum)) { damping *= 6; continue; }
                gain = (sum - next) / sum;
                (sum, improved) = (next, true);
                trial.CopyTo(x, 0);
                tried.CopyTo(r, 0);
                damping = Math.Max(damping * 0.2, 1e-9);
            }
            // A change of a millionth of the sum is far below the scatter of the sum itself.
            if (!improved || gain < 1e-6) break;
        }
        Linearise(residuals, x, probe, r, jacobian, normal, gradient);
        return new(x, sum, count) { _factor = SmallCholesky.TryFactor(normal, n) ? normal : [] };
    }

    private static void Linearise(ResidualFunction residuals, double[] x, ReadOnlySpan<double> probe, double[] r, double[][] jacobian, double[] normal, double[] gradient)
    {
        int n = x.Length;
        double[] other = new double[r.Length];
        for (int j = 0; j < n; j++)
        {
            double keep = x[j];
            x[j] = keep + probe[j];
            residuals(x, jacobian[j]);
            x[j] = keep - probe[j];
            residuals(x, other);
            x[j] = keep;
            for (int i = 0; i < other.Length; i++) jacobian[j][i] = (jacobian[j][i] - other[i]) / (2 * probe[j]);
        }
        for (int j = 0; j < n; j++)
        {
            gradient[j] = Dot(jacobian[j], r);
            for (int k = 0; k <= j; k++) normal[j * n + k] = normal[k * n + j] = Dot(jacobian[j], jacobian[k]);
        }
    }

    private static double Squares(double[] r) => Dot(r, r);

    private static double Dot(double[] a, double[] b)
    {
        double sum = 0;
        for (int i = 0; i < a.Length; i++) sum += a[i] * b[i];
        return sum;
    }
}
