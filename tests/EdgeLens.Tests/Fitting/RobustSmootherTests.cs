using EdgeLens.Geometry.Fitting;
using Xunit;

namespace EdgeLens.Tests.Fitting;

public sealed class RobustSmootherTests
{
    private static readonly double[] X = [.. Enumerable.Range(0, 200).Select(i => 0.02 * i)];

    [Fact]
    public void Tukey_does_not_follow_a_short_defect_in_its_window_that_plain_least_squares_follows()
    {
        // A nick 0.1 deep and 0.3 long on a parabola: 15 of the 75 points of the window.
        double[] clean = [.. X.Select(x => 0.05 * x * x)], nicked = [.. X.Select((x, i) => clean[i] + (x is > 1.85 and < 2.15 ? 0.1 : 0))];
        double[] tukey = RobustSmoother.Smooth(X, nicked, 0.75, 2, 0.001, RobustLoss.Tukey);
        double plain = PolynomialFit.Of(X.AsSpan(63, 75), nicked.AsSpan(63, 75), 2, 2)!.At(2);
        Assert.True(plain - clean[100] > 0.03, "the defect must be one that matters");
        // While the nick lies in the inner half of the window; at a window's end it has leverage, and M-estimators do not withstand that.
        Assert.All(Enumerable.Range(90, 21), i => Assert.Equal(clean[i], tukey[i], 0.001));
    }

    [Fact]
    public void Huber_lets_the_defect_keep_a_say_smaller_than_plain_least_squares_does()
    {
        double[] y = [.. X.Select(x => x is > 1.85 and < 2.15 ? 0.1 : 0)];
        double huber = RobustSmoother.Smooth(X, y, 0.75, 2, 0.001, RobustLoss.Huber)[100], plain = PolynomialFit.Of(X.AsSpan(63, 75), y.AsSpan(63, 75), 2, 2)!.At(2);
        Assert.InRange(huber, 0.1 * plain, 0.6 * plain);
    }

    [Fact]
    public void On_normal_noise_Tukey_costs_five_percent_of_efficiency()
    {
        // Tukey's 4.685 is chosen for 95 % efficiency on normal errors (Holland, Welsch 1977): variance 1/0.95 of plain least squares.
        Random random = new(9);
        double plain = 0, tukey = 0;
        const int trials = 3000;
        for (int k = 0; k < trials; k++)
        {
            double[] y = [.. X.Take(75).Select(_ => Noise.Normal(random))];
            plain += Math.Pow(PolynomialFit.Of(X.AsSpan(0, 75), y, 2, 0.74)!.At(0.74), 2);
            tukey += Math.Pow(RobustSmoother.FitAt(X.AsSpan(0, 75), y, 0.74, 2, 0, RobustLoss.Tukey)!.At(0.74), 2);
        }
        // The two variances share their noise; their ratio is known to about √(4 · 0.05/3000) = 0.8 %. The scale's own noise costs some more.
        Assert.InRange(plain / tukey, 0.90, 0.98);
    }

    [Fact]
    public void Weights_are_the_published_ones()
    {
        // Huber 1964, 1.345; Tukey's biweight (1 - (r/c)²)², 4.685: any handbook of robust statistics.
        Assert.Equal(1, RobustSmoother.Weight(1.3, RobustLoss.Huber));
        Assert.Equal(0.5, RobustSmoother.Weight(-2.69, RobustLoss.Huber), 12);
        Assert.Equal(0.5625, RobustSmoother.Weight(4.685 / 2, RobustLoss.Tukey), 12);
        Assert.Equal(0, RobustSmoother.Weight(-5, RobustLoss.Tukey));
    }
}
