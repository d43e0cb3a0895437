using EdgeLens.Assessment.Measurements;
using Xunit;

namespace EdgeLens.Tests.FaceView;

public sealed class OutlineNoiseTests
{
    private static readonly OutlinePoint[] Points = [.. Enumerable.Range(0, 101).Select(i => new OutlinePoint(new(0, 0.01 * i), 0.01 * i, new(1, 0), 2))];

    [Fact]
    public void One_point_has_both_parts_in_quadrature() =>
        Assert.Equal(2.5e-3, new OutlineNoise(0.03, 1.5).Propagate(Points.AsSpan(0, 1), [1.0]), 12);

    [Fact]
    public void The_mean_of_a_long_stretch_keeps_the_slow_part_and_loses_the_fast_one()
    {
        double[] mean = [.. Enumerable.Repeat(1.0 / 101, 101)];
        // Fast: 1 mm of arc holds 1/(√(2π) 0.03) = 13.3 independent values (a little fewer at the ends).
        Assert.Equal(2e-3 / Math.Sqrt(13.3), new OutlineNoise(0.03, 0).Propagate(Points, mean), 0.03e-3);
        // Slow with a length of many stretches: nothing is averaged away.
        Assert.Equal(1.5e-3, new OutlineNoise(1e-6, 1.5, 1000).Propagate(Points, [.. mean.Select(w => w)]), 0.02e-3);
    }

    [Fact]
    public void Difference_of_two_near_points_loses_the_slow_part()
    {
        double near = new OutlineNoise(1e-6, 1.5, 1.0).Propagate([Points[0] with { StandardUncertaintyUm = 1e-9 }, Points[1] with { StandardUncertaintyUm = 1e-9 }], [1, -1]);
        // 1.5 µm · √(2 (1 - exp(-½ 0.01²))) = 1.5 µm · 0.01.
        Assert.Equal(1.5e-5, near, 1e-9);
    }
}
