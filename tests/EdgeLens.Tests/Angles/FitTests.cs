using EdgeLens.Geometry.Fitting;
using Xunit;

namespace EdgeLens.Tests.Angles;

public sealed class FitTests
{
    /// <summary>NIST StRD non-linear regression, Misra1a, y = b1 (1 - exp(-b2 x)); data and certified values from memory, which agree with each other here to 8 digits.</summary>
    [Fact]
    public void Damped_least_squares_gives_the_certified_values_of_Misra1a()
    {
        double[] y = [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78];
        double[] x = [77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0];
        DampedLeastSquares fit = DampedLeastSquares.Solve(
            (p, r) => { for (int i = 0; i < x.Length; i++) r[i] = p[0] * (1 - Math.Exp(-p[1] * x[i])) - y[i]; },
            x.Length, [250, 0.0005], [1e-3, 1e-9], iterations: 100);
        Assert.Equal(238.94212918, fit.Parameters[0], 238.9 * 1e-6);
        Assert.Equal(5.5015643181e-4, fit.Parameters[1], 5.5e-4 * 1e-6);
        Assert.Equal(0.12455138894, fit.SumOfSquares, 1e-8);
        Assert.Equal(2.7070075241, Math.Sqrt(fit.Variance) * fit.UnitSd(0), 2.7e-4);
    }

    [Fact]
    public void A_consensus_line_is_that_of_the_majority_however_far_the_others_lie()
    {
        double[] x = [.. Enumerable.Range(0, 100).Select(i => (double)i)], y = [.. x.Select(v => v % 5 < 2 ? 500 - 7 * v : 3 + 0.25 * v)];
        ConsensusLine line = ConsensusLine.Through(x, y, 0.5, 20)!;
        Assert.Equal(0.25, line.Slope, 9);
        Assert.Equal(3, line.Intercept, 7);
        Assert.Equal(60, line.Inliers.Length);
    }

    [Fact]
    public void Too_few_points_have_no_consensus() => Assert.Null(ConsensusLine.Through([1, 2, 3], [1, 2, double.NaN], 1, 1));
}
