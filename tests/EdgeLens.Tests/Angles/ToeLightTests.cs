using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Lines;
using EdgeLens.Measuring.ToeView;
using Xunit;

namespace EdgeLens.Tests.Angles;

/// <summary>Angles from the light on drawn toes of exactly known form.</summary>
public sealed class ToeLightTests
{
    [Theory]
    [InlineData(75, 75, 0)]
    [InlineData(69, 73, 0)]
    [InlineData(82, 66, 0)]
    [InlineData(74, 74, 0.6)] // a light that falls off by a fifth over the depth used
    public void Both_internal_angles_come_back_from_lines_of_equal_light(double leftDeg, double rightDeg, double fall)
    {
        // Seen from the toe the picture's right is the instrument's left; the drawing counts in the picture.
        for (int seed = 1; seed <= 3; seed++)
        {
            ToeLight light = Fit(new DrawnToe(leftDeg, rightDeg, 2, seed, fall).Picture, DrawnToe.Edge());

            Holds(rightDeg, light.RightRad);
            Holds(leftDeg, light.LeftRad);
            Assert.True(light.Explained > 0.95, $"{light.Explained:0.000} of the light goes with the rulings");
        }
    }

    /// <summary>Together 0.5 px of shift and 2 % of width keep the first ruling, 3 % inside the corner, on the steel.</summary>
    [Fact]
    public void A_start_that_is_half_a_pixel_off_and_two_percent_too_wide_is_mended_as_far_as_the_uncertainty_says()
    {
        ToeLight light = Fit(new DrawnToe(75, 75, 2, 5).Picture, DrawnToe.Edge(shiftPx: 0.5, wider: 1.02));

        Holds(75, light.RightRad);
        Holds(75, light.LeftRad);
    }

    [Fact]
    public void Noise_alone_does_not_go_with_rulings()
    {
        Random random = new(3);
        byte[] tones = [.. Enumerable.Range(0, 180 * 90).Select(_ => (byte)Math.Clamp(60 + 8 * DrawnWedge.Normal(random), 0, 255))];

        ToeLight light = Fit(TonePicture.Of(tones, 180), DrawnToe.Edge());

        Assert.True(light.Explained < 0.3, $"{light.Explained:0.000}");
    }

    [Theory]
    [InlineData(1.2)]
    [InlineData(-0.8)]
    public void A_turned_face_line_is_set_back_on_its_step(double turnDeg)
    {
        ToeEdge set = FaceLine.Refine(new DrawnToe(75, 75, 2, 9).Picture, DrawnToe.Edge(turnDeg: turnDeg) with { TurnSigmaRad = 0.03 });

        double left = Math.Asin(set.Along.Y) * 180 / Math.PI;
        // Places scatter by about noise over slope, 2 tones over 40 a pixel, 0.05 px, 48 of them over 96 px: 0.015°; the drawing is not blurred, which leaves rounding to
        // whole pixels, 0.3 px, correlated over some four places.
        Assert.True(Math.Abs(left) < 0.2, $"{left:0.00}° left of {turnDeg}°");
        // What the model of a blurred step leaves over on the unblurred one counts as noise.
        Assert.InRange(set.TurnSigmaRad * 180 / Math.PI, 0.05, 1);
    }

    /// <summary>By hand: √(20² - 0.6²) = 19.991; a size below its own uncertainty is 0.</summary>
    [Theory]
    [InlineData(20, 0.6, 70.009)]
    [InlineData(-20, 0.6, 70.009)]
    [InlineData(0.5, 0.6, 90)]
    public void Scatter_is_taken_out_of_the_size_of_the_face_s_offset(double offsetDeg, double sigmaDeg, double faceDeg) =>
        Assert.Equal(faceDeg, FaceToShank.FaceAngleDeg(new Measured(offsetDeg, sigmaDeg)).Value, 3);

    private static ToeLight Fit(TonePicture picture, ToeEdge edge) =>
        ToeLight.FitTwice(picture, edge, new(EdgeOfLight.AtContour(edge, -1), null), new(EdgeOfLight.AtContour(edge, 1), null))!;

    private static void Holds(double truthDeg, Measured foundRad)
    {
        double error = foundRad.Value * 180 / Math.PI - truthDeg, u = foundRad.StandardUncertainty * 180 / Math.PI;
        // Predicted: one angle in 370 lies beyond three of its standard uncertainties; and an uncertainty of more than 1.5° would prove nothing.
        Assert.True(Math.Abs(error) <= 3 * u && u < 1.5, $"{error:0.00}° off, stated {u:0.00}°");
    }
}
