using EdgeLens.Imaging.Edges;
using Xunit;

namespace EdgeLens.Tests.Edges;

public sealed class ParabolicMinimumTests
{
    /// <summary>In the logarithm a parabola: exact. d²/dx² (ln x/a)² = 2 / a² at the minimum.</summary>
    [Theory]
    [InlineData(0.7)]
    [InlineData(1.3)]
    [InlineData(3.2)]
    public void A_parabola_in_the_logarithm_is_found_exactly(double a)
    {
        (double at, double curvature) = ParabolicMinimum.Search(x => Math.Pow(Math.Log(x / a), 2), 0.4, 5);
        Assert.Equal(a, at, 1e-9);
        Assert.Equal(2 / (a * a), curvature, 1e-6);
    }

    /// <summary>
    /// x/a + a/x has its minimum at a and the curvature 2 / a² there. On the base of 0.08 the second difference of 2 cosh is too large by 0.08²/12 = 0.05 %; the last
    /// three places lie within a base of the minimum, where the third-order error of a parabola through them is below 1e-5.
    /// </summary>
    [Theory]
    [InlineData(0.9)]
    [InlineData(2.2)]
    public void A_function_that_is_no_parabola_is_found_closely(double a)
    {
        (double at, double curvature) = ParabolicMinimum.Search(x => x / a + a / x, 0.4, 5);
        Assert.Equal(a, at, 1e-3 * a);
        Assert.Equal(2 / (a * a), curvature, 1e-2 * curvature);
    }

    [Theory]
    [InlineData(1, 0.4)]
    [InlineData(-1, 5)]
    public void A_minimum_on_the_rim_has_no_curvature(double slope, double rim)
    {
        (double at, double curvature) = ParabolicMinimum.Search(x => slope * x, 0.4, 5);
        Assert.Equal(rim, at, 1e-9);
        Assert.Equal(0, curvature);
    }

    /// <summary>Each evaluation costs a fit of some tens of blocks.</summary>
    [Fact]
    public void It_asks_for_few_values()
    {
        int asked = 0;
        ParabolicMinimum.Search(x => { asked++; return x / 2 + 2 / x; }, 0.4, 5);
        Assert.InRange(asked, 3, 12);
    }
}
