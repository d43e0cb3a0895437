using EdgeLens.Geometry.Fitting;
using Xunit;

namespace EdgeLens.Tests.Fitting;

public sealed class PolynomialFitTests
{
    private static readonly double[] X = [.. Enumerable.Range(0, 25).Select(i => 7 + 0.05 * i + 0.01 * (i % 3))];

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void A_polynomial_is_given_back_with_value_and_slope(int degree)
    {
        double[] y = [.. X.Select(x => Horner(x - 7.5, degree))];
        PolynomialFit fit = PolynomialFit.Of(X, y, degree, 7.6)!;
        Assert.Equal(Horner(0.2, degree), fit.At(7.7), 10);
        Assert.Equal((Horner(0.2 + 1e-6, degree) - Horner(0.2 - 1e-6, degree)) / 2e-6, fit.SlopeAt(7.7), 7);
        Assert.Equal(0, fit.ResidualSd, 10);
    }

    [Fact]
    public void Sensitivities_are_what_happens_when_an_ordinate_moves()
    {
        Random random = new(3);
        double[] y = [.. X.Select(x => Math.Sin(3 * x) + 0.1 * Noise.Normal(random))], w = [.. X.Select((_, i) => i % 4 == 0 ? 0 : 1.0 + i % 5)];
        PolynomialFit fit = PolynomialFit.Of(X, y, 3, 7.6, w)!;
        for (int i = 0; i < X.Length; i++)
        {
            double[] moved = [.. y];
            moved[i] += 1; // linear: any step is exact
            Assert.Equal(PolynomialFit.Of(X, moved, 3, 7.6, w)!.At(7.9) - fit.At(7.9), fit.SensitivitiesAt(7.9)[i], 10);
        }
    }

    [Fact]
    public void The_straight_line_of_degree_one_is_that_of_the_regression_checked_against_NIST()
    {
        double[] y = [.. X.Select((x, i) => 2 + 0.5 * x + 0.01 * (i % 4))];
        Assert.Equal(StraightLine.Fit(X, y).Value.At(8.1), PolynomialFit.Of(X, y, 1, 7.6)!.At(8.1), 10);
        Assert.Equal(StraightLine.Fit(X, y).Value.ResidualSd, PolynomialFit.Of(X, y, 1, 7.6)!.ResidualSd, 10);
    }

    [Fact]
    public void Abscissas_that_do_not_carry_the_degree_give_nothing()
    {
        Assert.Null(PolynomialFit.Of([1, 2], [1, 2], 2, 0));
        Assert.Null(PolynomialFit.Of([1, 1, 2, 2], [1, 2, 3, 4], 2, 1.5));
        Assert.Null(PolynomialFit.Of([1, 2, 3, 4], [1, 2, 3, 4], 2, 0, [1, 0, 0, 1]));
    }

    private static double Horner(double x, int degree)
    {
        double[] c = [0.7, -1.2, 2.5, 3.1, -4.4];
        double sum = 0;
        for (int k = degree; k >= 0; k--) sum = sum * x + c[k];
        return sum;
    }
}
