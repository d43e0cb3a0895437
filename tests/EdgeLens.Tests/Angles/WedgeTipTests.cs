using EdgeLens.Assessment.Measurements;
using Xunit;

namespace EdgeLens.Tests.Angles;

/// <summary>The tip's thickness against plain geometry.</summary>
public sealed class WedgeTipTests
{
    /// <summary>By hand: without rounding 50 µm tan 45° = 50; with r = 20 µm the front stands 20 (2.41421 - 1) = 28.28 µm behind the corner, so 78.28 µm; at 60° and 10 µm (50 + 10 (1.73205 - 1)) 1.73205 = 99.28 µm.</summary>
    [Theory]
    [InlineData(45, 0, 50)]
    [InlineData(45, 20, 78.284)]
    [InlineData(60, 10, 99.282)]
    public void Thickness_is_that_of_the_section(double wedgeDeg, double radiusUm, double thicknessUm) =>
        Assert.Equal(thicknessUm, WedgeTip.ThicknessUm(new(wedgeDeg, 0.5), new(radiusUm, 1)).Value, 0.002);

    /// <summary>A section as a cloud of points, a million of them: of all that lie in steel at 50 µm from the foremost the extent across the face is the thickness, also where the place lies on the rounding.</summary>
    [Theory]
    [InlineData(45, 70)]
    [InlineData(38, 120)]
    [InlineData(70, 90)]
    public void A_rounding_larger_than_the_station_is_cut_through_its_circle(double wedgeDeg, double radiusUm)
    {
        double beta = wedgeDeg * Math.PI / 180, r = radiusUm, touch = r / Math.Tan(beta / 2), front = touch - r, x = front + 50, least = double.MaxValue, most = double.MinValue;
        for (double y = -5; y < 400; y += 0.005)
        {
            // Between face (y = 0) and bevel (y = x tan β); ahead of the points of touch only inside the circle about (touch, r).
            bool wedge = y >= 0 && y <= x * Math.Tan(beta), circle = (x - touch) * (x - touch) + (y - r) * (y - r) <= r * r;
            double alongFace = x - touch, alongBevel = x * Math.Cos(beta) + y * Math.Sin(beta) - touch;
            bool ahead = alongFace < 0 && alongBevel < 0;
            if (!wedge || (ahead && !circle)) continue;
            (least, most) = (Math.Min(least, y), Math.Max(most, y));
        }

        Assert.Equal(most - least, WedgeTip.ThicknessUm(new(wedgeDeg, 0.5), new(radiusUm, 1)).Value, 0.05);
    }

    /// <summary>JCGM 100, 5.1.2, by hand at 45° and 20 µm: dT/dβ = 78.28 / cos² - 20 tan / (2 sin² 22.5°) = 156.6 - 68.3 µm/rad, dT/dr = 1.414.</summary>
    [Fact]
    public void Uncertainties_of_angle_and_radius_are_carried_over()
    {
        double byAngle = (156.57 - 68.28) * Math.PI / 180 * 0.5, byRadius = 1.4142 * 2;

        Assert.Equal(Math.Sqrt(byAngle * byAngle + byRadius * byRadius), WedgeTip.ThicknessUm(new(45, 0.5), new(20, 2)).StandardUncertainty, 0.02);
    }

    [Fact]
    public void Without_a_face_view_the_reason_says_what_to_do() => Assert.Contains("lamps ahead of the tip", WedgeTip.ApexRadiusUm(null).WhyMissing, StringComparison.Ordinal);
}
