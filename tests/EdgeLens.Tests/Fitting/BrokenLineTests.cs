using EdgeLens.Geometry.Fitting;
using Xunit;

namespace EdgeLens.Tests.Fitting;

public sealed class BrokenLineTests
{
    private static readonly double[] X = [.. Enumerable.Range(0, 80).Select(i => 0.02 * i)];

    [Fact]
    public void A_break_is_found_between_the_steps_of_the_search()
    {
        BrokenLine line = BrokenLine.Fit(X, [.. X.Select(x => 2 + (x < 0.733 ? 0.4 : -0.1) * (x - 0.733))], 0.02)!;
        // The parabola through three steps is not quite the sum of squares: a tenth of a step.
        Assert.Equal(0.733, line.BreakX, 0.002);
        Assert.Equal(0.4, line.SlopeBefore, 0.005);
        Assert.Equal(-0.1, line.SlopeAfter, 0.005);
    }

    [Fact]
    public void Its_scatter_is_as_stated()
    {
        const int trials = 400;
        Random random = new(5);
        double sum = 0, mean = 0;
        for (int k = 0; k < trials; k++)
        {
            BrokenLine line = BrokenLine.Fit(X, [.. X.Select(x => (x < 0.8 ? 0.5 : -0.2) * (x - 0.8) + 0.004 * Noise.Normal(random))], 0.02)!;
            sum += Math.Pow((line.BreakX - 0.8) / line.BreakSd, 2) / trials;
            mean += (line.BreakX - 0.8) / line.BreakSd / trials;
        }
        // Chi square of 400 at 99.8 %: ±22 %; the noise estimated from 76 residuals adds 2/76 to the mean of the squares.
        Assert.InRange(sum, 0.78, 1.25);
        Assert.InRange(mean, -0.15, 0.15);
    }

    [Fact]
    public void Few_points_have_no_break()
    {
        Assert.Null(BrokenLine.Fit([0, 1, 2], [0, 1, 0], 0.1));
    }
}
