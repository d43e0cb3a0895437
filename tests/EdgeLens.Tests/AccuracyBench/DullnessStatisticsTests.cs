using EdgeLens.Accuracy.Comparing;
using EdgeLens.Accuracy.Statistics;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using Xunit;

namespace EdgeLens.Tests.AccuracyBench;

public sealed class DullnessStatisticsTests
{
    /// <summary>Spearman's worked example of ten pairs (IQ and hours of television, the encyclopaedia Wikipedia, from memory): -29/165.</summary>
    [Fact]
    public void Rank_correlation_is_that_of_the_worked_example()
    {
        double[] a = [106, 100, 86, 101, 99, 103, 97, 113, 112, 110], b = [7, 27, 2, 50, 28, 29, 20, 12, 6, 17];
        Assert.Equal(-29.0 / 165, DullnessStatistics.Correlation(DullnessStatistics.Ranks(a), DullnessStatistics.Ranks(b))!.Value, 1e-12);
    }

    [Fact]
    public void Equal_values_share_their_mean_rank() => Assert.Equal([1, 2.5, 2.5, 4], DullnessStatistics.Ranks([3, 5, 5, 9]));

    /// <summary>Counted by hand (Mann and Whitney's U): of the six pairs (2 | 4) against (1, 2, 3) four are greater and one is a tie.</summary>
    [Fact]
    public void Area_under_the_curve_is_the_share_of_pairs_in_order() => Assert.Equal(4.5 / 6, DullnessStatistics.RocAreaOf([1, 2, 3], [2, 4])!.Value, 1e-12);

    /// <summary>Truth takes two values: the best order that an estimate without ties can have against it correlates by less than 1, and that is the ceiling.</summary>
    [Fact]
    public void The_ceiling_is_what_a_perfect_order_reaches()
    {
        EdgeStretch[] stretches = [.. Enumerable.Range(0, 8).Select(i => new EdgeStretch(EdgePart.Left, i, i < 6 ? 3 : 30, new Measured(i, 1)))];
        DullnessStatistics found = DullnessStatistics.Of(stretches);
        Assert.Equal(found.SpearmanCeiling!.Value, found.Spearman!.Value, 1e-12);
        Assert.InRange(found.Spearman.Value, 0.7, 0.8);
        Assert.Equal((6, 2, 1.0), (found.Sharp, found.Dull, found.RocArea));
    }

    [Fact]
    public void What_was_not_measured_does_not_count() =>
        Assert.Equal((0, 0, null), (DullnessStatistics.Of([new(EdgePart.Left, 0, 30, null)]) is var d ? (d.Sharp, d.Dull, d.RocArea) : default));
}
