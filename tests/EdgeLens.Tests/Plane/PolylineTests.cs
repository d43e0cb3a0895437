using EdgeLens.Geometry.Plane;
using FsCheck.Xunit;
using Xunit;

namespace EdgeLens.Tests.Plane;

public sealed class PolylineTests
{
    /// <summary>3-4-5 and 5-12-13 steps: lengths by Pythagoras.</summary>
    private static readonly Vector2[] Steps = [new(0, 0), new(3, 4), new(8, 16), new(8, 10)];

    [Fact]
    public void Arc_lengths_add_up() => Assert.Equal([0, 5, 18, 24], Polyline.ArcLengths(Steps));

    [Fact]
    public void Resampling_keeps_the_ends_the_length_and_an_even_spacing()
    {
        Vector2[] even = Polyline.Resample(Steps, 0.5);
        Assert.Equal(49, even.Length);
        Assert.Equal((Steps[0], Steps[^1]), (even[0], even[^1]));
        Assert.Equal(0, (even[10] - Steps[1]).Length, 12);
        // 0.5 apart along the line: the corner at 18 falls on a point too.
        Assert.All(even.Zip(even.Skip(1)), pair => Assert.Equal(0.5, (pair.Second - pair.First).Length, 12));
    }

    [Fact]
    public void Area_is_positive_from_x_towards_y_and_far_origins_cost_no_digits()
    {
        Vector2[] square = [new(1e6, 1e6), new(1e6 + 2, 1e6), new(1e6 + 2, 1e6 + 3), new(1e6, 1e6 + 3)];
        Assert.Equal(6, Polyline.SignedArea(square), 9);
        Array.Reverse(square);
        Assert.Equal(-6, Polyline.SignedArea(square), 9);
    }

    [Property]
    public bool Area_stays_when_the_line_is_turned_and_shifted(sbyte x, sbyte y, sbyte angle)
    {
        Similarity move = new(1, angle * 0.05, x, y);
        return Math.Abs(Polyline.SignedArea([.. Steps.Select(move.Apply)]) - Polyline.SignedArea(Steps)) < 1e-9;
    }

    [Fact]
    public void Crossings_are_interpolated_and_a_vertex_on_the_height_counts_once()
    {
        IReadOnlyList<Crossing> at2 = Polyline.CrossingsAtY(Steps, 2), at4 = Polyline.CrossingsAtY(Steps, 4), at13 = Polyline.CrossingsAtY(Steps, 13);
        Assert.Equal(new Crossing(0, 0.5, 1.5), Assert.Single(at2));
        Assert.Equal(3, Assert.Single(at4).X, 12);
        Assert.Equal([6.75, 8.0], at13.Select(c => c.X));
        Assert.Empty(Polyline.CrossingsAtY(Steps, 17));
    }

    [Fact]
    public void Distance_along_a_direction_takes_the_nearest_crossing_with_its_sign()
    {
        Vector2[] steps = [new(-5, 2), new(5, 2), new(5, -1), new(-5, -1)];
        Assert.Equal(-1, Polyline.DistanceAlong(default, new(0, 1), steps, 10)!.Value, 12);
        Assert.Equal(5, Polyline.DistanceAlong(default, new(1, 0), steps, 10)!.Value, 12);
        Assert.Null(Polyline.DistanceAlong(default, new(1, 0), steps, 4));
        Assert.Equal(1, Polyline.DistanceTo(default, steps), 12);
    }
}
