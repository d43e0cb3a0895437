using System.Collections.Immutable;

namespace EdgeLens.Geometry.Fitting;

/// <summary>Weighted least squares y = c0 + c1 u + c2 u² ..., u = (x - <see cref="Origin"/>) / <see cref="Length"/>; linear in y, so that every error can be carried through.</summary>
/// <remarks>
/// Ordinary weighted regression (Draper, Smith, Applied Regression Analysis, ch. 2). With u within ±1 and a degree of at most 4 the normal equations lose
/// four digits of sixteen at worst (condition below 10⁴ for evenly spread points), so they are solved as they are, by Cholesky.
/// </remarks>
public sealed class PolynomialFit
{
    /// <summary>Highest degree.</summary>
    public const int GreatestDegree = 4;

    /// <summary>A pivot this much smaller than its diagonal means that the abscissas do not carry the degree.</summary>
    private const double LeastPivot = 1e-11;

    private readonly double[] _coefficients;
    private readonly double[] _factor;
    private readonly double[] _x;
    private readonly double[] _y;
    private readonly double[] _weights;
    private readonly int _used;

    private PolynomialFit(double origin, double length, double[] coefficients, double[] factor, double[] x, double[] y, double[] weights, int used)
    {
        Origin = origin;
        Length = length;
        _coefficients = coefficients;
        _factor = factor;
        _x = x;
        _y = y;
        _weights = weights;
        _used = used;
    }

    /// <summary>Where u is 0.</summary>
    public double Origin { get; }

    /// <summary>How much x makes one u.</summary>
    public double Length { get; }

    /// <summary>Standard deviation of the residuals of unit weight: root of Σ w r² / (n - degree - 1), n counting the points of weight above 0.</summary>
    public double ResidualSd
    {
        get
        {
            if (_used == _coefficients.Length) return 0;
            double squares = 0;
            for (int i = 0; i < _x.Length; i++)
            {
                double r = _y[i] - At(_x[i]);
                squares += _weights[i] * r * r;
            }
            return Math.Sqrt(squares / (_used - _coefficients.Length));
        }
    }

    /// <summary>Fits the polynomial.</summary>
    /// <param name="x">Abscissas, any order.</param>
    /// <param name="y">Ordinates, as many.</param>
    /// <param name="degree">0 to <see cref="GreatestDegree"/>.</param>
    /// <param name="origin">Where u is 0, best in the middle of the points.</param>
    /// <param name="weights">Not negative (1/variance up to a factor), or empty for equal weights.</param>
    /// <returns>The fit, or null when fewer than degree + 1 different abscissas carry weight.</returns>
    public static PolynomialFit? Of(ReadOnlySpan<double> x, ReadOnlySpan<double> y, int degree, double origin, ReadOnlySpan<double> weights = default)
    {
        if (x.Length != y.Length || (weights.Length != 0 && weights.Length != x.Length)) throw new ArgumentException("Abscissas, ordinates and weights must be as many.", nameof(y));
        ArgumentOutOfRangeException.ThrowIfNegative(degree);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(degree, GreatestDegree);
        int used = 0;
        double length = 0;
        double[] w = new double[x.Length];
        for (int i = 0; i < x.Length; i++)
        {
            w[i] = weights.Length == 0 ? 1 : Math.Max(0, weights[i]);
            if (w[i] == 0) continue;
            used++;
            length = Math.Max(length, Math.Abs(x[i] - origin));
        }
        if (used <= degree) return null;
        if (!(length > 0)) length = 1;

        int m = degree + 1;
        Span<double> moments = stackalloc double[2 * GreatestDegree + 1];
        double[] c = new double[m];
        for (int i = 0; i < x.Length; i++)
        {
            double u = (x[i] - origin) / length, power = w[i];
            for (int k = 0; k <= 2 * degree; k++, power *= u)
            {
                moments[k] += power;
                if (k < m) c[k] += power * y[i];
            }
        }
        if (Factor(moments, m) is not { } factor) return null;
        SmallCholesky.Solve(factor, m, c);
        return new(origin, length, c, factor, x.ToArray(), y.ToArray(), w, used);
    }

    /// <summary>The polynomial at x.</summary>
    public double At(double x)
    {
        double u = (x - Origin) / Length, sum = 0;
        for (int k = _coefficients.Length - 1; k >= 0; k--) sum = sum * u + _coefficients[k];
        return sum;
    }

    /// <summary>Its first derivative dy/dx at x.</summary>
    public double SlopeAt(double x)
    {
        double u = (x - Origin) / Length, sum = 0;
        for (int k = _coefficients.Length - 1; k >= 1; k--) sum = sum * u + k * _coefficients[k];
        return sum / Length;
    }

    /// <summary>How far the polynomial at x moves per unit of each ordinate, in their order.</summary>
    public ImmutableArray<double> SensitivitiesAt(double x)
    {
        // p(u) (XᵀWX)⁻¹ Xᵀ W: solve once for the row p(u), then one product per point.
        double u = (x - Origin) / Length;
        double[] row = new double[_coefficients.Length];
        for (int k = 0; k < row.Length; k++) row[k] = k == 0 ? 1 : row[k - 1] * u;
        SmallCholesky.Solve(_factor, row.Length, row);
        double[] sensitivities = new double[_x.Length];
        for (int i = 0; i < sensitivities.Length; i++)
        {
            double v = (_x[i] - Origin) / Length, sum = 0;
            for (int k = row.Length - 1; k >= 0; k--) sum = sum * v + row[k];
            sensitivities[i] = _weights[i] * sum;
        }
        return [.. sensitivities];
    }

    /// <summary>Cholesky factor of the moment matrix M_ij = moments_(i+j); null when the abscissas do not carry the degree.</summary>
    private static double[]? Factor(ReadOnlySpan<double> moments, int m)
    {
        double[] l = new double[m * m];
        for (int i = 0; i < m; i++)
            for (int j = 0; j <= i; j++) l[i * m + j] = moments[i + j];
        if (!SmallCholesky.TryFactor(l, m)) return null;
        for (int i = 0; i < m; i++)
            if (l[i * m + i] * l[i * m + i] <= LeastPivot * moments[2 * i]) return null;
        return l;
    }
}
