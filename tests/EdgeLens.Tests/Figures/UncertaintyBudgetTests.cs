using EdgeLens.Geometry.Figures;
using Xunit;

namespace EdgeLens.Tests.Figures;

public sealed class UncertaintyBudgetTests
{
    // JCGM 100:2008 H.1, calibration of a 50 mm end gauge, table H.1 (inputs from memory): standard of length, comparison (three parts), expansion and
    // temperature differences. Published result: u = 32 nm, 16 effective degrees of freedom, U99 = 93 nm.
    private static UncertaintyBudget EndGauge => new(
    [
        new("calibration of the standard end gauge", 25, 1, 18),
        new("repeated observations of the comparison", 9.7, 1, 25.6),
        new("difference of expansion coefficients", 0.58e-6, -50e6 * 0.1, 50),
        new("difference of temperatures", 0.029, -50e6 * 11.5e-6, 2),
        new("expansion coefficient, its sensitivity is zero", 1.2e-6, 0),
    ]);

    [Fact]
    public void The_end_gauge_of_the_GUM_comes_out_as_published()
    {
        Assert.Equal(32, EndGauge.Combined, 0.5);
        Assert.Equal(16, Math.Floor(EndGauge.EffectiveDegreesOfFreedom));
        // The guide rounds u to 32 nm before it multiplies by t99(16) = 2.92: 93 nm; unrounded it is 92.5 nm.
        Assert.Equal(93, EndGauge.ExpandedAt(0.99), 0.8);
    }

    // Student's t, 97.5 %, any handbook table.
    [Theory]
    [InlineData(1, 12.706)]
    [InlineData(2, 4.303)]
    [InlineData(4, 2.776)]
    [InlineData(10, 2.228)]
    [InlineData(30, 2.042)]
    public void One_contribution_is_expanded_by_the_table_of_Student(double degreesOfFreedom, double t) =>
        Assert.Equal(t, new UncertaintyBudget([new("alone", 1, 1, degreesOfFreedom)]).ExpandedAt(0.95), 0.0006);

    [Fact]
    public void Known_distributions_are_expanded_by_the_normal_factor()
    {
        UncertaintyBudget budget = new([new("a", 3), new("b", 2, 2)]);
        Assert.Equal(5, budget.Combined, 1e-12);
        Assert.Equal(10, budget.Expanded, 1e-12);
        Assert.Equal(double.PositiveInfinity, budget.EffectiveDegreesOfFreedom);
        Assert.Equal(5 * 1.959964, budget.ExpandedAt(0.95), 1e-5);
    }

    [Fact]
    public void Less_than_one_degree_of_freedom_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new UncertaintyBudget([new("a", 1, 1, 0.5)]).ExpandedAt(0.95));
}
