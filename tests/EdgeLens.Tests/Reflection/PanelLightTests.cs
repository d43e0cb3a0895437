using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Edges;
using Xunit;

namespace EdgeLens.Tests.Reflection;

/// <summary>Which edges mirror a panel, by following rays: the angles that <see cref="PanelLight"/> calls full and none must hold for every panel it is meant for.</summary>
public sealed class PanelLightTests
{
    private static readonly SteelLight Steel = new(0.9, 0.1, 38, 24, 0.1, "drawn");

    /// <summary>Panels of measurands.md: 30 to 46° high, half angle 20 to 27°, seen from an edge that is off the panel's azimuth.</summary>
    [Theory]
    [InlineData(30, 20)]
    [InlineData(30, 27)]
    [InlineData(46, 20)]
    [InlineData(46, 27)]
    public void An_edge_within_the_full_angle_mirrors_a_panel_and_one_beyond_the_none_angle_does_not(double elevationDeg, double halfAngleDeg)
    {
        Assert.True(MirrorsDirectly(Boundary(Exposure.Full) - 6, elevationDeg, halfAngleDeg));
        // Even with the panel set 8° off to that side.
        Assert.False(MirrorsDirectly(Boundary(Exposure.Partial) - 8, elevationDeg, halfAngleDeg));
    }

    [Fact]
    public void An_edge_faces_the_nearer_panel()
    {
        PanelLight two = new([new(new(0, -1), Steel), new(new(0, 1), Steel with { LitLevel = 0.5 })], true);
        Assert.Equal(0.5, two.Facing(new(0.6, 0.8)).Light.LitLevel);
        Assert.Equal((Exposure.Full, Exposure.Partial, Exposure.None), (two.ExposureOf(At(0)), two.ExposureOf(At(40)), two.ExposureOf(At(90))));
    }

    [Fact]
    public void Panels_of_unknown_place_leave_no_edge_in_the_dark_for_certain() => Assert.Equal(Exposure.Partial, new PanelLight([new(new(0, 1), Steel)], false).ExposureOf(At(180)));

    private static Vector2 At(double degreesOff) => new(Math.Sin(degreesOff * Math.PI / 180), Math.Cos(degreesOff * Math.PI / 180));

    /// <summary>Greatest angle off the panel with that exposure.</summary>
    private static double Boundary(Exposure exposure)
    {
        PanelLight one = new([new(new(0, 1), Steel)], true);
        return Enumerable.Range(0, 181).Last(d => one.ExposureOf(At(d)) == exposure);
    }

    /// <summary>Whether a normal between the face's (0, 0, 1) and the edge's outward one turns the line of sight into the panel.</summary>
    private static bool MirrorsDirectly(double offDeg, double elevationDeg, double halfAngleDeg)
    {
        double e = elevationDeg * Math.PI / 180, off = offDeg * Math.PI / 180, cosine = Math.Cos(halfAngleDeg * Math.PI / 180);
        Vector3 panel = new(Math.Cos(e) * Math.Cos(off), Math.Cos(e) * Math.Sin(off), Math.Sin(e));
        for (double tilt = 0; tilt <= Math.PI / 2; tilt += 1e-3)
        {
            Vector3 mirrored = new(Math.Sin(2 * tilt), 0, Math.Cos(2 * tilt));
            if (mirrored.X * panel.X + mirrored.Y * panel.Y + mirrored.Z * panel.Z >= cosine) return true;
        }
        return false;
    }
}
