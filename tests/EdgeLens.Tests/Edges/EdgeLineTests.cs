using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Edges;
using Xunit;

namespace EdgeLens.Tests.Edges;

/// <summary>Direction and bend on a circle, where both are known.</summary>
public sealed class EdgeLineTests
{
    private static readonly Vector2 Centre = new(200, 150);

    /// <summary>
    /// Quadratic over ± 5 px of a circle of radius R: the cosine's fourth order makes the bend too small by about 0.07 (5/R)² of it, 0.11 % at 40 px; the place errs by
    /// 0.01 · 5⁴/(24 R³) = less than 0.001 px. Within 5 px of the ends the window slides inwards and errs more: left out. Normals are exact by symmetry but for the resampling to even steps (chords: sag 1/(8R) = 0.003 px).
    /// </summary>
    [Theory]
    [InlineData(40, 1)]
    [InlineData(40, -1)]
    [InlineData(150, 1)]
    [InlineData(150, -1)]
    public void A_disc_bends_by_its_radius_and_faces_outwards_whichever_way_it_is_run(double radius, int way)
    {
        EdgeLine line = EdgeLine.Through(Circle(radius, way), 0);
        for (int i = 5; i < line.Points.Length - 5; i += 7)
        {
            EdgePlace place = line.PlaceAt(i, 4.5, 9);
            Vector2 radial = new(place.Centre.X - Centre.X, place.Centre.Y - Centre.Y);
            Assert.Equal(radius, radial.Length, 0.01);
            Assert.Equal(1, radial.Unit.Dot(place.Outward), 1e-4);
            Assert.Equal(1 / radius, place.CurvaturePerPx, 0.005 / radius);
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(-1)]
    public void A_hole_bends_the_other_way_and_faces_its_middle(int way)
    {
        EdgeLine disc = EdgeLine.Through(Circle(60, way), 0), hole = new(disc.Points, !disc.SteelOnLeft);
        EdgePlace place = hole.PlaceAt(100, 4.5, 9);
        Vector2 radial = new(place.Centre.X - Centre.X, place.Centre.Y - Centre.Y);
        Assert.Equal(-1, radial.Unit.Dot(place.Outward), 1e-4);
        Assert.Equal(-1.0 / 60, place.CurvaturePerPx, 0.02 / 60);
    }

    /// <summary>Smoothing over ± n points takes noise down by about √(2n+1) / 1.5 (local quadratic, Savitzky-Golay: 9/4 of the mean's variance in the middle).</summary>
    [Fact]
    public void Smoothing_calms_noisy_points()
    {
        Random random = new(1);
        PixelPoint[] noisy = [.. Circle(100, 1).Select(p => new PixelPoint(p.X + 0.3 * Fitting.Noise.Normal(random), p.Y + 0.3 * Fitting.Noise.Normal(random)))];
        double raw = Rms(noisy), calm = Rms(EdgeLine.Through(noisy, 10).Points);
        Assert.True(calm < raw * 1.5 / Math.Sqrt(21) * 1.3, FormattableString.Invariant($"{raw:g3} to {calm:g3} px"));

        double Rms(IEnumerable<PixelPoint> points) => Math.Sqrt(points.Average(p => Math.Pow(new Vector2(p.X - Centre.X, p.Y - Centre.Y).Length - 100, 2)));
    }

    [Fact]
    public void Too_few_points_are_our_own_mistake() => Assert.Throws<ArgumentException>(() => new EdgeLine([.. Circle(40, 1).Take(10)], true));

    private static List<PixelPoint> Circle(double radius, int way)
    {
        // Most of the way round, so that it encloses its middle but has ends.
        int count = (int)(2 * Math.PI * radius * 0.9);
        return [.. Enumerable.Range(0, count).Select(i => new PixelPoint(Centre.X + radius * Math.Cos(way * i / radius), Centre.Y + radius * Math.Sin(way * i / radius)))];
    }
}
