using EdgeLens.Geometry.Fitting;
using MathNet.Numerics.LinearAlgebra;
using Xunit;

namespace EdgeLens.Tests.Fitting;

/// <summary>Against the dense solver of MathNet.Numerics.</summary>
public sealed class SmallCholeskyTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(5)]
    [InlineData(8)]
    public void It_solves_as_MathNet_does(int n)
    {
        Random random = new(n);
        Matrix<double> b = Matrix<double>.Build.Dense(n, n, (_, _) => Noise.Normal(random)), a = b * b.Transpose() + 0.1 * Matrix<double>.Build.DenseIdentity(n);
        double[] right = [.. Enumerable.Range(0, n).Select(_ => Noise.Normal(random))];
        Vector<double> expected = a.Solve(Vector<double>.Build.Dense([.. right]));
        double[] factor = a.ToRowMajorArray();
        Assert.True(SmallCholesky.TryFactor(factor, n));
        Matrix<double> lower = a.Cholesky().Factor;
        for (int i = 0; i < n; i++) for (int k = 0; k <= i; k++) Assert.Equal(lower[i, k], factor[i * n + k], 1e-12);
        SmallCholesky.Solve(factor, n, right);
        for (int i = 0; i < n; i++) Assert.Equal(expected[i], right[i], 1e-10 * (1 + expected.L2Norm()));
    }

    /// <summary>Only the lower triangle counts, as its doc comment says.</summary>
    [Fact]
    public void The_upper_triangle_is_not_read()
    {
        double[] matrix = [4, 999, 2, 5], right = [6, 7];
        Assert.True(SmallCholesky.TryFactor(matrix, 2));
        SmallCholesky.Solve(matrix, 2, right);
        Assert.Equal([1.0, 1.0], right);
    }

    [Theory]
    [InlineData(1, 2, 1)]
    [InlineData(0, 0, 1)]
    [InlineData(-1, 0, 1)]
    [InlineData(double.NaN, 0, 1)]
    public void A_matrix_that_is_not_positive_definite_is_refused(double a, double b, double c) => Assert.False(SmallCholesky.TryFactor([a, b, b, c], 2));
}
