using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Measuring.ToeView;
using EdgeLens.Measuring.Views;
using EdgeLens.Tests.Silhouettes;
using EdgeLens.Tests.Cards;
using Xunit;

namespace EdgeLens.Tests.Angles;

/// <summary>Where a toe's side ends for the eye, against the law of reflection worked by hand and against points in space.</summary>
public sealed class EdgeOfLightTests
{
    private const double Degree = Math.PI / 180;

    /// <summary>
    /// By hand, toe 12.5 mm before the middle of the window, seen straight: a mirror of normal (nx, ny, nz), 12.2 mm before the card, sends the line of sight to
    /// 12.2 · 2 nz nx / (1 - 2 nz²) beside it. The place itself lies 0.34 mm to that side, so the window's side, 12 mm away, is reached at 2 nz nx / (1 - 2 nz²) = 0.954; with
    /// nx = cos ψ sin 75°, nz = sin ψ sin 75° that is ψ = 23.3°. Its lower rim (5 mm below, ny = -cos 75°) would be reached only at 28°.
    /// </summary>
    [Theory]
    [InlineData(1)]
    [InlineData(-1)]
    public void Before_the_middle_of_the_window_the_steel_is_black_as_far_as_the_law_of_reflection_says(int side)
    {
        EdgeOfLight light = EdgeOfLight.Of(SquareView.Calibration, DefaultCard.Card, Toe(0), side);

        Assert.True(light.Mirrored);
        Assert.Equal(23.3, light.AzimuthRad / Degree, 0.3);
        // A side rim does not care for the depth but for the 0.02 mm that the surface has come in.
        Assert.Equal(0, light.PerMm / Degree / 10, 0.2);
        // 20 % of distance turn the mirror by some 2 to 3°, the lobe of the steel by 2°.
        Assert.InRange(light.SigmaRad / Degree, 2, 5);
    }

    /// <summary>
    /// The lower rim instead: 3 mm lower it is only 1.82 mm away from a place 0.18 mm down, and the camera looks from 2° above (0.034): (2 (nz - 0.009) cos 75° + 0.034) / (1 - 2 nz (nz
    /// - 0.009)) = 1.82 / 12.2 at nz = 0.207, ψ = 12.4°. A place 0.1 mm lower reaches it 0.8° earlier.
    /// </summary>
    [Fact]
    public void The_lower_rim_is_reached_earlier_by_places_further_down()
    {
        EdgeOfLight light = EdgeOfLight.Of(SquareView.Calibration, DefaultCard.Card, Toe(-3), 1);

        Assert.Equal(12.4, light.AzimuthRad / Degree, 0.3);
        Assert.Equal(-0.8, light.PerMm / Degree / 10, 0.1);
    }

    [Fact]
    public void Steel_that_mirrors_the_print_is_seen_as_far_as_its_contour()
    {
        EdgeOfLight light = EdgeOfLight.Of(SquareView.Calibration, DefaultCard.Card, Toe(-6), 1);

        Assert.False(light.Mirrored);
    }

    /// <summary>The lateral surface as a cloud of points in space, projected along the view; its contour is the outermost place at each of two heights.</summary>
    [Theory]
    [InlineData(75, -0.08, 0.05)]
    [InlineData(68, -0.1, 0.12)]
    [InlineData(80, -0.05, -0.06)]
    public void A_contour_is_seen_under_the_angle_that_projecting_its_points_gives(double internalDeg, double vx, double vy)
    {
        const double w = 0.42;
        ToeEdge edge = Toe(0) with { HalfWidthMm = new Measured(w, 0.01), ViewX = vx, ViewY = vy };
        double beta = internalDeg * Degree;
        (double X, double Y) from = Outermost(0.08), to = Outermost(0.33);

        Assert.Equal(Math.Atan2(from.Y - to.Y, from.X - to.X) / Degree, LateralLine.SeenRad(beta, edge, 1, EdgeOfLight.AtContour(edge, 1)) / Degree, 0.05);

        (double X, double Y) Outermost(double depth)
        {
            (double, double) best = (double.MinValue, 0);
            for (double psi = 0; psi < 1; psi += 1e-4)
            {
                // Down the ruling (-cos ψ cos β, -sin β, -sin ψ cos β) from the toe's edge (w cos ψ, 0, w sin ψ), z towards the camera, moved along the view to the plane of the apex.
                double fall = depth / Math.Sin(beta), x = w * Math.Cos(psi) - fall * Math.Cos(psi) * Math.Cos(beta), z = w * Math.Sin(psi) - fall * Math.Sin(psi) * Math.Cos(beta) - w;
                if (x - z * vx > best.Item1) best = (x - z * vx, -depth - z * vy);
            }
            return best;
        }
    }

    [Fact]
    public void Two_ends_set_middle_and_width_and_what_is_not_seen_leaves_them_uncertain()
    {
        ToeEdge edge = Toe(0);
        EdgeOfLight contour = new(0, 0, 0, false);
        // Half a width of 0.41 mm, the nominal one, moved to the right by 30 µm.
        ToeEdge both = edge.WithEnds(new(contour, edge.At(-0.38, 0)), new(contour, edge.At(0.44, 0))), none = edge.WithEnds(new(contour, null), new(contour, null));

        // By hand, 10 µm per pixel: an end that is not seen is good to 6 px, 60 µm, a seen one to 15 µm, the nominal half width to 50 µm.
        Assert.Equal(1 / Math.Sqrt(2 / (0.06 * 0.06) + 1 / (0.05 * 0.05)), none.HalfWidthMm.StandardUncertainty, 1e-6);
        Assert.Equal(1 / Math.Sqrt(2 / (0.015 * 0.015) + 1 / (0.05 * 0.05)), both.HalfWidthMm.StandardUncertainty, 1e-6);
        Assert.Equal(0.41, both.HalfWidthMm.Value, 1e-6);
        Assert.Equal(3, both.Middle.X - edge.Middle.X, 1e-6);
        // The ends lie half a width behind the apex: 0.41 mm times the view's 0.015.
        Assert.Equal(Math.Sqrt(0.015 * 0.015 / 2 + 0.42 * 0.42 * AngleLimits.AlignmentSigmaRad * AngleLimits.AlignmentSigmaRad), both.MiddleSigmaMm, 1e-4);
        Assert.True(both.EndsAgree);
    }

    [Fact]
    public void Two_ends_that_cannot_both_be_the_toe_s_are_not_believed()
    {
        ToeEdge edge = Toe(0);
        EdgeOfLight contour = new(0, 0, 0, false);

        ToeEdge set = edge.WithEnds(new(contour, edge.At(-0.1, 0)), new(contour, edge.At(0.1, 0)));

        Assert.False(set.EndsAgree);
        Assert.True(set.HalfWidthMm.Value > 0.4);
    }

    /// <summary>A toe 12.5 mm before the window, so many millimetres above its middle.</summary>
    private static ToeEdge Toe(double aboveMm)
    {
        CardCalibration calibration = SquareView.Calibration;
        CardPoint window = calibration.Printed(DefaultCard.Card.Window.Centre);
        PixelPoint middle = calibration.Project(new(window.XMm, window.YMm - aboveMm), 12.5);
        // From 100 mm over the window's middle.
        return new(middle, new(1, 0), 0.005, 0.01, new Measured(0.42, 0.01), 0, -aboveMm / 87.5, 0.015, 0.01, 1000);
    }
}
