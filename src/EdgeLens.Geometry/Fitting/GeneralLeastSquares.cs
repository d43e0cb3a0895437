using EdgeLens.Geometry.Figures;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace EdgeLens.Geometry.Fitting;

/// <summary>A linear model y = X b + e fitted to observations whose errors have a known covariance, correlated or not.</summary>
/// <remarks>Aitken's generalised least squares; prediction of a correlated quantity: Goldberger, J. Am. Stat. Assoc. 57 (1962) 369-375.</remarks>
public sealed class GeneralLeastSquares
{
    private readonly Matrix<double> _design;
    private readonly Vector<double> _residuals;
    private readonly Cholesky<double> _covariance;

    private GeneralLeastSquares(Matrix<double> design, Vector<double> observations, Cholesky<double> covariance)
    {
        _design = design;
        _covariance = covariance;
        Matrix<double> weighted = covariance.Solve(design);
        CoefficientCovariance = design.TransposeThisAndMultiply(weighted).Cholesky().Solve(Matrix<double>.Build.DenseIdentity(design.ColumnCount));
        Coefficients = CoefficientCovariance * weighted.TransposeThisAndMultiply(observations);
        _residuals = observations - design * Coefficients;
        ChiSquare = _residuals.DotProduct(covariance.Solve(_residuals));
    }

    /// <summary>b, one per column.</summary>
    public Vector<double> Coefficients { get; }

    /// <summary>Of b, when the observations' covariance is what was stated (not scaled by the residuals).</summary>
    public Matrix<double> CoefficientCovariance { get; }

    /// <summary>Weighted sum of squared residuals: about the degrees of freedom when the stated covariance is right.</summary>
    public double ChiSquare { get; }

    /// <summary>Observations less columns.</summary>
    public int DegreesOfFreedom => _design.RowCount - _design.ColumnCount;

    /// <summary>Coefficient k with its standard uncertainty.</summary>
    public Measured Coefficient(int k) => new(Coefficients[k], Math.Sqrt(CoefficientCovariance[k, k]));

    /// <summary>A weighted sum of coefficients with its standard uncertainty.</summary>
    /// <param name="weights">One per column.</param>
    public Measured Combination(ReadOnlySpan<double> weights)
    {
        Vector<double> w = Vector<double>.Build.DenseOfArray(weights.ToArray());
        return new(w.DotProduct(Coefficients), Math.Sqrt(Math.Max(0, w * CoefficientCovariance * w)));
    }

    /// <summary>Fits the model.</summary>
    /// <param name="design">X: one row per observation, one column per coefficient.</param>
    /// <param name="observations">y.</param>
    /// <param name="covariance">Of the observations' errors, symmetric, positive definite.</param>
    /// <returns>The fit, or the refusal <c>fit-too-few-points</c> (fewer observations than coefficients), <c>fit-degenerate</c> (columns that depend on each other).</returns>
    /// <exception cref="ArgumentException">Sizes differ, or the covariance is not positive definite.</exception>
    public static Outcome<GeneralLeastSquares> Fit(double[,] design, ReadOnlySpan<double> observations, double[,] covariance)
    {
        ArgumentNullException.ThrowIfNull(design);
        ArgumentNullException.ThrowIfNull(covariance);
        int n = observations.Length;
        if (design.GetLength(0) != n || covariance.GetLength(0) != n || covariance.GetLength(1) != n)
            throw new ArgumentException("Rows of the design, observations and rows and columns of the covariance must be as many.", nameof(design));
        int p = design.GetLength(1);
        if (p == 0 || n < p) return new Refusal("fit-too-few-points", "There are fewer observations than unknowns", "More observations are needed.", n, Math.Max(1, p), "observations");
        Matrix<double> x = Matrix<double>.Build.DenseOfArray(design);
        Cholesky<double> v;
        try
        {
            v = Matrix<double>.Build.DenseOfArray(covariance).Cholesky();
        }
        catch (ArgumentException e)
        {
            throw new ArgumentException("The covariance of the observations must be positive definite.", nameof(covariance), e);
        }
        // Columns are scaled to length 1 in the metric of the errors: then the least singular value says how far they are from depending on each other.
        Matrix<double> scaled = v.Factor.Solve(x);
        double[] lengths = [.. scaled.EnumerateColumns().Select(c => c.L2Norm())];
        if (lengths.Any(l => !(l > 0)) || scaled.MapIndexed((_, k, value) => value / lengths[k]).Svd(false).S[p - 1] < 1e-6)
            return new Refusal("fit-degenerate", "The observations do not tell the unknowns apart", "Observations under other conditions are needed.");
        return new GeneralLeastSquares(x, Vector<double>.Build.DenseOfArray(observations.ToArray()), v);
    }

    /// <summary>Best linear unbiased prediction of a further quantity that follows the same model.</summary>
    /// <param name="row">Its row of the design.</param>
    /// <param name="variance">Of its own departure from the model.</param>
    /// <param name="covariances">Of that departure with each observation's error; 0 where they are independent.</param>
    /// <returns>Prediction and standard deviation of the prediction's error.</returns>
    public Measured Predict(ReadOnlySpan<double> row, double variance, ReadOnlySpan<double> covariances)
    {
        Vector<double> x = Vector<double>.Build.DenseOfArray(row.ToArray()), c = Vector<double>.Build.DenseOfArray(covariances.ToArray());
        Vector<double> gain = _covariance.Solve(c), left = x - _design.TransposeThisAndMultiply(gain);
        double error = variance - c.DotProduct(gain) + left * CoefficientCovariance * left;
        return new(x.DotProduct(Coefficients) + gain.DotProduct(_residuals), Math.Sqrt(Math.Max(0, error)));
    }
}
