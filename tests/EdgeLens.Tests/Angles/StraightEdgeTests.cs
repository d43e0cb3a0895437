using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;
using EdgeLens.Imaging.Photographs;
using MathNet.Numerics.Distributions;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Angles;

/// <summary>Wedges drawn with exactly known angles, at several blurs, contrasts and noises.</summary>
public sealed class StraightEdgeTests
{
    private const int Trials = 60;
    private const double LengthPx = 70;

    /// <summary>
    /// Cramér-Rao bound of a blurred step's place per scan line: (noise / step) sqrt(2 sqrt(π) σ), from the Fisher information ∫ (step Gauss'(x))² dx = step² / (2 sqrt(π) σ)
    /// over the noise's variance. A line's direction from n independent scan lines over a length n: sqrt(12 / n³) times that. Rounding to whole tones adds 1/12 to
    /// the variance. Tones are not quite linear in light: with steps of a few tones the edge's centre is where the curve is taken.
    /// </summary>
    [Theory]
    [InlineData(45, 0.9, 0.020, 0.030, 2)]
    [InlineData(45, 1.6, 0.020, 0.030, 2)]
    [InlineData(75, 0.9, 0.020, 0.030, 1)]
    [InlineData(75, 0.9, 0.020, 0.150, 3)]
    [InlineData(38, 1.2, 0.030, 0.022, 1)] // steel darker than the ground
    public void The_angle_of_a_drawn_wedge_is_right_and_scatters_as_the_Cramer_Rao_bound_allows(double angleDeg, double blurPx, double ground, double steel, double noise)
    {
        double step = Math.Abs(255 * (LinearLight.Encode(steel) - LinearLight.Encode(ground))), sd = Math.Sqrt(noise * noise + 1.0 / 12);
        double perLine = sd / step * Math.Sqrt(2 * Math.Sqrt(Math.PI) * blurPx), bound = Math.Sqrt(2) * perLine * Math.Sqrt(12 / Math.Pow(LengthPx, 3)) * 180 / Math.PI;
        double sum = 0, squares = 0, normalised = 0;
        for (int k = 0; k < Trials; k++)
        {
            Random random = new(k);
            DrawnWedge wedge = new(360 * random.NextDouble(), angleDeg, blurPx, ground, steel, noise, 1000 + k);
            StraightEdge face = Fit(wedge.Picture, wedge.Face(random.NextDouble() - 0.5, 0.02 * random.NextDouble()), blurPx);
            StraightEdge bevel = Fit(wedge.Picture, wedge.Bevel(random.NextDouble() - 0.5, 0.02 * random.NextDouble()), blurPx);
            double error = Math.Acos(face.Line.Along.Dot(bevel.Line.Along)) * 180 / Math.PI - angleDeg;
            double stated = Math.Sqrt(face.AngleSigmaRad * face.AngleSigmaRad + bevel.AngleSigmaRad * bevel.AngleSigmaRad) * 180 / Math.PI;
            (sum, squares, normalised) = (sum + error, squares + error * error, normalised + error * error / (stated * stated));
        }
        double scatter = Math.Sqrt(squares / Trials), mean = sum / Trials;
        // Each limit is passed once in a thousand by a right program: Student's t for the mean, chi-square for the scatter and the stated uncertainty. Below the bound is
        // impossible but for chance; nuisance levels and the interpolated strip may cost a fifth.
        double t = StudentT.InvCDF(0, 1, Trials - 1, 0.9995), least = ChiSquared.InvCDF(Trials, 0.001) / Trials, greatest = ChiSquared.InvCDF(Trials, 0.999) / Trials;
        Assert.True(Math.Abs(mean) <= t * scatter / Math.Sqrt(Trials), $"mean error {mean:0.000}°, scatter {scatter:0.000}°");
        Assert.InRange(scatter / bound, Math.Sqrt(least), 1.2 * Math.Sqrt(greatest));
        Assert.InRange(normalised / Trials, least, 1.2 * 1.2 * greatest);
    }

    /// <summary>
    /// A step of two tones in noise of two, sought from 1.5 px and 4° away: whichever minimum is found, the stated uncertainty holds. Of 60 lines at least 52 within k = 2 is what a right 95 % gives
    /// in all but two of a thousand trials (binomial).
    /// </summary>
    [Fact]
    public void A_faint_edge_found_from_far_states_an_uncertainty_that_holds()
    {
        int within = 0;
        for (int k = 0; k < Trials; k++)
        {
            Random random = new(k);
            DrawnWedge wedge = new(360 * random.NextDouble(), 45, 1.0, 0.020, 0.023, 2, 3000 + k);
            Stretch truth = wedge.Bevel(0, 0);
            StraightEdge fit = StraightEdgeFitter.FitFaint(wedge.Picture, wedge.Bevel(3 * random.NextDouble() - 1.5, 0.14 * random.NextDouble() - 0.07), default, 5, 7, 0.7, 1.8);
            if (Math.Abs(Math.Asin(truth.Along.Cross(fit.Line.Along))) <= 2 * fit.AngleSigmaRad) within++;
        }
        Assert.True(within >= 52, $"{within} of {Trials} within k = 2");
    }

    /// <summary>An independent estimate: places where tones cross the half level, row by row, through OpenCV's least-distance line (Cv2.FitLine).</summary>
    [Fact]
    public void The_line_agrees_with_an_independent_fit_through_half_level_places()
    {
        DrawnWedge wedge = new(12, 45, 1.0, 0.02, 0.12, 1, 7);
        foreach (Stretch start in new[] { wedge.Face(0, 0), wedge.Bevel(0, 0) })
        {
            StraightEdge fit = Fit(wedge.Picture, start);
            List<Point2f> places = [];
            double half = 255 * LinearLight.Encode((0.02 + 0.12) / 2);
            for (int t = 0; t < (int)LengthPx; t++)
                for (double d = 5; d > -5; d -= 0.05)
                {
                    if (Tone(t, d) < half || Tone(t, d + 0.05) >= half) continue;
                    var p = start.At(t, d);
                    places.Add(new((float)p.X, (float)p.Y));
                    break;
                }
            Line2D line = Cv2.FitLine(places, DistanceTypes.L2, 0, 0.001, 0.001);
            double cross = Math.Abs(line.Vx * fit.Line.Along.Y - line.Vy * fit.Line.Along.X);
            // Single half-level crossings scatter by about noise over slope, 1 tone over 30 tones a pixel: 0.03 px, direction 0.05°; both estimates share the noise.
            Assert.True(Math.Asin(cross) * 180 / Math.PI < 0.2, $"{Math.Asin(cross) * 180 / Math.PI:0.000}°");

            double Tone(int t, double d)
            {
                var p = start.At(t, d);
                return wedge.Picture.Sample(p.X, p.Y);
            }
        }
    }

    [Fact]
    public void A_slow_change_of_light_is_told_from_an_edge()
    {
        DrawnWedge wedge = new(0, 60, 9, 0.02, 0.12, 1, 3);
        Assert.True(StraightEdgeFitter.Fit(wedge.Picture, wedge.Face(0, 0), default, 6, 6, 0.6, 2.5).BlurAtLimit);
    }

    // Six blurs to either side: with less, free level and ramp take the place of part of the step.
    private static StraightEdge Fit(TonePicture picture, Stretch start, double blurPx = 1) =>
        StraightEdgeFitter.Fit(picture, start, new Sharpening(0), (int)Math.Ceiling(6 * blurPx), (int)Math.Ceiling(6 * blurPx), 0.5, 3);
}
