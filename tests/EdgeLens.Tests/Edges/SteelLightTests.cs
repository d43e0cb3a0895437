using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Edges;
using Xunit;

namespace EdgeLens.Tests.Edges;

/// <summary>What a mirroring cylinder shows, by following rays, against the closed formulas.</summary>
public sealed class SteelLightTests
{
    /// <summary>
    /// In the plane across the edge: x outwards, y out of the face. The camera is at (sin l, cos l), the panel's middle at (cos e, sin e), a normal at (sin f, cos f).
    /// Each normal mirrors the line of sight v into 2 (n·v) n - v; a place n is seen at n·(cos l, -sin l) across the picture, the silhouette at 1.
    /// </summary>
    [Theory]
    [InlineData(38, 24, 0)]
    [InlineData(38, 24, 9)]
    [InlineData(38, 24, -9)]
    [InlineData(33, 18, 4)]
    [InlineData(45, 20, -4)]
    public void The_lit_band_lies_where_rays_meet_the_panel(double elevationDeg, double halfAngleDeg, double leanDeg)
    {
        Vector2 panel = Toward(elevationDeg), sight = Toward(90 - leanDeg), across = new(sight.Y, -sight.X);
        double deepest = 0, outermost = 1, horizon = 0, cosine = Math.Cos(halfAngleDeg * Math.PI / 180);
        for (double tilt = leanDeg; tilt < 90 + leanDeg; tilt += 0.002)
        {
            Vector2 normal = Toward(90 - tilt), mirrored = 2 * normal.Dot(sight) * normal - sight;
            double depth = 1 - normal.Dot(across);
            if (mirrored.Dot(panel) >= cosine) (deepest, outermost) = (Math.Max(deepest, depth), Math.Min(outermost, depth));
            if (mirrored.Y < 0) horizon = Math.Max(horizon, depth);
        }
        RoundingLight seen = new SteelLight(0.9, 0.1, elevationDeg, halfAngleDeg, 0.1, "").Seen(leanDeg);
        Assert.Equal((deepest, outermost, horizon), (1 - seen.BandStart, 1 - seen.BandEnd, seen.DarkCentre - RoundingLight.ScatterShift), Near);
    }

    /// <summary>
    /// Highlight on a convex cylinder: a mirror turns the ray by twice its own turn, so that light over the angle a covers normals over a / 2, an arc r a / 2, seen foreshortened
    /// by the cosine of its tilt (geometry of mirror reflection). Exact to a² / 96: 1e-4 for a = 6°.
    /// </summary>
    [Theory]
    [InlineData(38)]
    [InlineData(30)]
    public void The_highlight_of_a_cylinder_is_half_the_lights_angle_times_the_radius_projected(double elevationDeg)
    {
        const double angle = 6 * Math.PI / 180;
        RoundingLight seen = new SteelLight(0.9, 0.1, elevationDeg, 3, 0.1, "").Seen(0);
        double tilt = (90 - elevationDeg) / 2 * Math.PI / 180;
        Assert.Equal(angle / 2 * Math.Cos(tilt), seen.BandWidth, 1e-4 * seen.BandWidth + 1e-6);
        Assert.Equal(1 - Math.Sin(tilt), seen.BandDepth, 1e-3);
    }

    // Rays are 0.002° apart: 4e-5 radii.
    private static bool Near((double, double, double) a, (double, double, double) b) =>
        Math.Abs(a.Item1 - b.Item1) < 1e-4 && Math.Abs(a.Item2 - b.Item2) < 1e-4 && Math.Abs(a.Item3 - b.Item3) < 1e-4;

    private static Vector2 Toward(double elevationDeg) => new(Math.Cos(elevationDeg * Math.PI / 180), Math.Sin(elevationDeg * Math.PI / 180));
}
