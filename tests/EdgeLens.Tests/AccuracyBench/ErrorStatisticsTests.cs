using EdgeLens.Accuracy.Comparing;
using EdgeLens.Accuracy.Statistics;
using Xunit;

namespace EdgeLens.Tests.AccuracyBench;

public sealed class ErrorStatisticsTests
{
    [Fact]
    public void Five_errors_are_summed_up_as_by_hand()
    {
        // 1, -1, 3, -3, 2 with u = 1: mean 0.4; squares about it 0.36 + 1.96 + 6.76 + 11.56 + 2.56 = 23.2, by 4 is 5.8; within 2: three of five; squares 24 by 5.
        ErrorStatistics s = ErrorStatistics.Of([Stated(1, 1, -1, 3), Stated(1, -3, 2) with { Missing = 2 }]);
        Assert.Equal((5, 2), (s.Count, s.Missing));
        Assert.Equal(0.4, s.Bias!.Value, 1e-12);
        Assert.Equal(Math.Sqrt(5.8), s.Sd!.Value, 1e-12);
        Assert.Equal(3, s.P95Abs!.Value, 1e-12);
        Assert.Equal(0.6, s.CoverageK2!.Value, 1e-12);
        Assert.Equal(4.8, s.MeanSquaredNormalisedError!.Value, 1e-12);
    }

    [Fact]
    public void Mean_and_deviation_agree_with_a_published_set()
    {
        // NIST StRD, univariate, NumAcc1 (from memory): 10000001, 10000003, 10000002; certified mean 10000002, standard deviation 1 exactly.
        ErrorStatistics s = ErrorStatistics.Of([Stated(1, 10000001, 10000003, 10000002)]);
        Assert.Equal(10000002, s.Bias!.Value, 1e-9);
        Assert.Equal(1, s.Sd!.Value, 1e-9);
    }

    [Theory]
    [InlineData(19, 19)] // 95 % of 19 is 18.05: the 19th
    [InlineData(20, 19)] // 95 % of 20 is 19: the 19th
    [InlineData(100, 95)]
    public void The_95th_percentile_is_an_error_that_was_made(int count, double expected) =>
        Assert.Equal(expected, ErrorStatistics.Of([Stated(1, [.. Enumerable.Range(1, count).Select(i => (double)-i)])]).P95Abs);

    [Fact]
    public void An_error_of_exactly_twice_the_uncertainty_is_within_it() => Assert.Equal(1, ErrorStatistics.Of([Stated(0.5, 1)]).CoverageK2);

    [Fact]
    public void Nothing_measured_gives_no_figures_but_counts_what_is_missing() =>
        Assert.Equal(new ErrorStatistics(0, 3, null, null, null, null, null), ErrorStatistics.Of([Comparison.AllMissing(3)]));

    [Fact]
    public void One_error_has_no_deviation() => Assert.Null(ErrorStatistics.Of([Stated(1, 2)]).Sd);

    [Fact]
    public void Errors_without_a_stated_uncertainty_give_no_coverage()
    {
        ErrorStatistics s = ErrorStatistics.Of([new([new(2, null), new(4, null)], 0)]);
        Assert.Equal((3.0, null, null), (s.Bias, s.CoverageK2, s.MeanSquaredNormalisedError));
    }

    [Fact]
    public void A_wrong_figure_with_a_stated_uncertainty_of_nothing_is_not_flattered()
    {
        ErrorStatistics s = ErrorStatistics.Of([Stated(0, 1)]);
        Assert.Equal((0.0, double.PositiveInfinity), (s.CoverageK2, s.MeanSquaredNormalisedError));
    }

    private static Comparison Stated(double u, params double[] errors) => new([.. errors.Select(error => new ErrorSample(error, u))], 0);
}
