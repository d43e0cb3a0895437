namespace EdgeLens.Geometry.Fitting;

/// <summary>Symmetric positive definite systems of a few unknowns, solved in place without allocation: the inner step of small least-squares fits.</summary>
public static class SmallCholesky
{
    /// <summary>Replaces the matrix by its lower Cholesky factor.</summary>
    /// <param name="matrix">n x n, row by row; only the lower triangle is read and written.</param>
    /// <param name="n">Number of unknowns.</param>
    /// <returns>False when the matrix is not positive definite; its content is then of no use.</returns>
    public static bool TryFactor(Span<double> matrix, int n)
    {
        for (int j = 0; j < n; j++)
        {
            double d = matrix[j * n + j];
            for (int k = 0; k < j; k++) d -= matrix[j * n + k] * matrix[j * n + k];
            if (!(d > 0)) return false;
            double root = Math.Sqrt(d);
            matrix[j * n + j] = root;
            for (int i = j + 1; i < n; i++)
            {
                double s = matrix[i * n + j];
                for (int k = 0; k < j; k++) s -= matrix[i * n + k] * matrix[j * n + k];
                matrix[i * n + j] = s / root;
            }
        }
        return true;
    }

    /// <summary>Solves L Lᵀ x = b with the factor; b becomes x.</summary>
    public static void Solve(ReadOnlySpan<double> factor, int n, Span<double> b)
    {
        for (int i = 0; i < n; i++)
        {
            double s = b[i];
            for (int k = 0; k < i; k++) s -= factor[i * n + k] * b[k];
            b[i] = s / factor[i * n + i];
        }
        for (int i = n - 1; i >= 0; i--)
        {
            double s = b[i];
            for (int k = i + 1; k < n; k++) s -= factor[k * n + i] * b[k];
            b[i] = s / factor[i * n + i];
        }
    }
}
