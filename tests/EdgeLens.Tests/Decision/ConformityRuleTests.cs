using EdgeLens.Assessment.Decision;
using EdgeLens.Geometry.Figures;
using Xunit;

namespace EdgeLens.Tests.Decision;

/// <summary>Zones of ISO 14253-1:2017 round one upper limit (from memory): conformance up to limit - U, uncertainty range, non-conformance beyond limit + U.</summary>
public sealed class ConformityRuleTests
{
    // U = 2 u = 2 throughout, limit 20: the zones end at 18 and 22.
    [Theory]
    [InlineData(0, Conformity.Inside)]
    [InlineData(17.999, Conformity.Inside)]
    [InlineData(18, Conformity.Inside)]
    [InlineData(18.001, Conformity.NotDecidable)]
    [InlineData(20, Conformity.NotDecidable)]
    [InlineData(21.999, Conformity.NotDecidable)]
    [InlineData(22, Conformity.NotDecidable)]
    [InlineData(22.001, Conformity.Outside)]
    [InlineData(100, Conformity.Outside)]
    public void An_upper_limit_has_three_zones_that_meet_at_the_limit_plus_and_minus_U(double value, Conformity expected) =>
        Assert.Equal(expected, ConformityRule.Judge(new Measured(value, 1), 20));

    [Theory]
    [InlineData(19.999999, Conformity.Inside)]
    [InlineData(20, Conformity.Inside)]
    [InlineData(20.000001, Conformity.Outside)]
    public void Without_uncertainty_the_zones_touch(double value, Conformity expected) =>
        Assert.Equal(expected, ConformityRule.Judge(new Measured(value, 0), 20));

    [Fact]
    public void A_figure_just_outside_is_wrongly_called_so_in_about_one_of_forty_four_cases_when_the_truth_lies_on_the_limit()
    {
        // One-sided normal probability beyond 2 standard deviations: 0.02275 (any handbook table). Of 200 000 seeded trials the share is
        // within 3.3 binomial standard deviations of it.
        const int Trials = 200_000;
        Random random = new(20171);
        int outside = 0;
        for (int i = 0; i < Trials; i++)
        {
            double gauss = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            if (ConformityRule.Judge(new Measured(20 + gauss, 1), 20) == Conformity.Outside) outside++;
        }
        Assert.InRange(outside / (double)Trials, 0.02275 - 0.0011, 0.02275 + 0.0011);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_limit_that_is_not_a_number_is_our_mistake(double limit) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ConformityRule.Judge(new Measured(1, 1), limit));
}
