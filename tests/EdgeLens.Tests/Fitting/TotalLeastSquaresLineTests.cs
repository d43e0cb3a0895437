using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;
using Xunit;

namespace EdgeLens.Tests.Fitting;

public sealed class TotalLeastSquaresLineTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(37)]
    [InlineData(90)]
    [InlineData(200)]
    public void A_line_is_found_in_any_direction_and_points_from_first_to_last(double angleDeg)
    {
        double a = angleDeg * Math.PI / 180;
        Vector2 t = new(Math.Cos(a), Math.Sin(a));
        FittedLine line = TotalLeastSquaresLine.Fit([.. Enumerable.Range(0, 20).Select(i => new Vector2(3, -5) + 0.1 * i * t)]).Value;
        Assert.Equal(1, line.Direction.Dot(t), 12);
        Assert.Equal(0, line.Distance(new(3, -5)), 12);
        Assert.Equal(2, line.Distance(new Vector2(3, -5) + 2 * t.Perpendicular), 12);
    }

    [Fact]
    public void Angle_and_offset_scatter_as_predicted()
    {
        const int trials = 400, n = 50;
        const double sigma = 0.002, step = 0.01;
        Random random = new(42);
        double[] angle = new double[trials], offset = new double[trials];
        Vector2 t = new(0.6, 0.8);
        for (int k = 0; k < trials; k++)
        {
            FittedLine line = TotalLeastSquaresLine.Fit([.. Enumerable.Range(0, n).Select(i => step * (i - (n - 1) / 2.0) * t + sigma * Noise.Normal(random) * t.Perpendicular)], sigma).Value;
            angle[k] = Math.Asin(t.Cross(line.Direction)) / line.AngleSdRad;
            offset[k] = -line.Distance(default) / line.OffsetSdAt(default);
        }
        // Unit variance within the chi-square band of 99.8 % for 400 trials (±3.09 √(2/400) = ±22 %), mean within 3/√400.
        foreach (double[] z in new[] { angle, offset })
        {
            Assert.InRange(z.Average(), -0.15, 0.15);
            Assert.InRange(z.Average(v => v * v), 0.78, 1.22);
        }
    }

    [Fact]
    public void What_has_no_direction_is_refused()
    {
        Assert.Equal("line-too-few-points", TotalLeastSquaresLine.Fit([new(0, 0), new(1, 1)]).Refusal!.Code);
        Assert.Equal("line-degenerate", TotalLeastSquaresLine.Fit([new(0, 0), new(1, 0), new(1, 1), new(0, 1)]).Refusal!.Code);
        Assert.Equal("line-degenerate", TotalLeastSquaresLine.Fit([new(2, 2), new(2, 2), new(2, 2)]).Refusal!.Code);
    }
}
