using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Edges;

/// <summary>Made scenes: square panels of known size, Lambert's law for the paper, a mirror for the shank.</summary>
public sealed class SteelLightEstimatorTests
{
    private const double Steel = 0.57, Paper = 0.85, MmPerPx = 0.012;

    /// <summary>The paper's light is integrated over the panel, ∫ cos dΩ, so that the program's Ω sin ε, which is 6 % more, is part of what is tested.</summary>
    [Theory]
    [InlineData(1, 24, 38)]
    [InlineData(2, 24, 38)]
    [InlineData(2, 19, 38)]
    [InlineData(2, 29, 38)]
    [InlineData(2, 24, 32)]
    [InlineData(2, 24, 44)]
    public void The_panels_half_angle_is_found_within_its_uncertainty(int panels, double halfAngleDeg, double elevationDeg)
    {
        const double level = 0.6;
        double white = Paper / Math.PI * panels * level / Steel * Irradiance(halfAngleDeg, elevationDeg);
        SteelLight light = SteelLightEstimator.Of([.. Enumerable.Repeat(SteelLightEstimator.OfPlateau(level, white), panels)], white, Paper, 0)[0];
        Assert.Equal(level, light.LitLevel, 0.01);
        double u = light.BandRelativeUncertainty * light.HalfAngleDeg;
        Assert.True(Math.Abs(light.HalfAngleDeg - halfAngleDeg) <= 2 * u, FormattableString.Invariant($"{light.HalfAngleDeg:f1}° ± {u:f1}°"));
        // More than the nominal panels' 4.5°, or the photograph told nothing.
        Assert.True(u < 3, FormattableString.Invariant($"{u:f1}°"));
    }

    /// <summary>A larger panel throws more light on the paper for the same brightness: the estimate must follow, not just repeat the nominal 24°.</summary>
    [Fact]
    public void A_larger_panel_is_seen_as_larger()
    {
        using Mat grey = Shank(0.6);
        double small = Half(18), large = Half(30);
        // The photograph weighs 1/2.4² against the nominal panels' 1/4.5²: seven tenths or more of the 12° must come through.
        Assert.True(large - small > 0.7 * 12 * 0.9, FormattableString.Invariant($"{small:f1}° and {large:f1}°"));

        double Half(double deg) => SteelLightEstimator.Estimate(grey, Paper / Math.PI * 2 * 0.6 / Steel * Irradiance(deg, 38), Paper, 0, MmPerPx).OfTwo.HalfAngleDeg;
    }

    [Fact]
    public void Without_a_highlight_the_level_is_nominal_and_uncertain()
    {
        using Mat grey = new(600, 1000, MatType.CV_8UC1, Scalar.All(40));
        SteelLight light = SteelLightEstimator.Estimate(grey, 0.3, Paper, 0.05, MmPerPx).OfTwo;
        Assert.Equal((0.69, 0.3), (light.LitLevel, light.LitLevelRelativeUncertainty), ((double A, double B) x, (double A, double B) y) => Math.Abs(x.A - y.A) < 1e-9 && x.B == y.B);
    }

    /// <summary>Solid angle of a square of half angle h, 4 asin(sin² h), against its integral (the formula is a handbook's, from memory).</summary>
    [Fact]
    public void A_square_of_half_angle_h_fills_four_arc_sines_of_sine_squared()
    {
        double h = 24 * Math.PI / 180;
        Assert.Equal(4 * Math.Asin(Math.Pow(Math.Sin(h), 2)), Integrate(24, (_, _, _) => 1), 1e-4);
    }

    private static double Irradiance(double halfAngleDeg, double elevationDeg)
    {
        (double sin, double cos) = Math.SinCos(elevationDeg * Math.PI / 180);
        // The panel's middle along (cos, 0, sin); its upright axis is (-sin, 0, cos).
        return Integrate(halfAngleDeg, (u, _, length) => Math.Max(0, (sin + u * cos) / length));
    }

    /// <summary>∫ f dΩ over a square at distance 1 square to its direction: dΩ = du dv / length³.</summary>
    private static double Integrate(double halfAngleDeg, Func<double, double, double, double> f)
    {
        const int n = 200;
        double t = Math.Tan(halfAngleDeg * Math.PI / 180), sum = 0;
        for (int i = 0; i < n; i++)
        {
            for (int k = 0; k < n; k++)
            {
                double u = t * ((2 * i + 1.0) / n - 1), v = t * ((2 * k + 1.0) / n - 1), length = Math.Sqrt(1 + u * u + v * v);
                sum += f(u, v, length) / (length * length * length);
            }
        }
        return sum * Math.Pow(2 * t / n, 2);
    }

    private static Mat Shank(double level)
    {
        Mat grey = new(600, 1000, MatType.CV_8UC1, Scalar.All(20));
        Cv2.Rectangle(grey, new Rect(300, 200, 200, 20), Scalar.All(Math.Round(255 * LinearLight.Encode(level))), -1);
        return grey;
    }
}
