using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using Xunit;

namespace EdgeLens.Tests.FaceView;

/// <summary>
/// Curette by formula: half circle of 0.42 mm on sides from 0.50 to 0.42 mm half width, one nick of 90 µm (Gaussian, sigma 0.08 mm) on the left side. Truth is the formula.
/// </summary>
public sealed class CuretteFiguresTests(CuretteFiguresTests.Photographs photographs) : IClassFixture<CuretteFiguresTests.Photographs>
{
    private const double NickZ = 3.1, NickDepthMm = 0.09, NickSigmaMm = 0.08;

    private static readonly ShapedBlade Blade = new() { Nicks = [(true, NickZ, NickDepthMm, NickSigmaMm)] };

    [Theory]
    [InlineData(0.5)]
    [InlineData(1.5)]
    [InlineData(4.0)]
    public void Width_at_a_station_is_unbiased_and_scatters_as_stated(double station) =>
        photographs.All.Hold((f, _) => f.Widths.Single(w => w.StationMm == station).WidthMm, 2 * Blade.HalfWidthAt(Blade.LengthMm - station), 0.0002);

    [Fact]
    public void Width_at_the_nick_is_that_of_the_nick()
    {
        // Station 2.5 lies at z = 2.9, 2.5 sigma off; station 2.0 at z = 3.4. A station on the nick needs another origin, so measure from there.
        Outline outline = FrameFinder.Find(Blade.Photograph(Similarity.Identity, new(1), noiseShare: 0.01), FamilyTraits.Of(InstrumentFamily.UniversalCurette)).Value;
        double nick = outline.BladeFromCard.Apply(new(0, NickZ)).Y;
        StationWidth width = FaceFigures.Measure(outline, FamilyTraits.Of(InstrumentFamily.UniversalCurette), 0, new Measured(nick + 0.5, 0), ShapedBlade.Noise).Widths[0];
        // A parabola over ±0.1 mm cuts a Gaussian of sigma 0.08 by its fourth derivative, 3 A/σ⁴ h⁴/280 = 2.4 µm.
        Assert.Equal(2 * Blade.HalfWidthAt(NickZ) - NickDepthMm, width.WidthMm.Value, 0.0035);
    }

    [Fact]
    public void Apex_is_unbiased_and_scatters_as_stated() => photographs.All.Hold((f, apex) => new(f.ApexZMm.Value - apex, f.ApexZMm.StandardUncertainty), 0, 0.0002);

    [Fact]
    public void Toe_radius_is_unbiased_and_scatters_as_stated() => photographs.All.Hold((f, _) => f.ToeRadiusUm.Measured!.Value, 420, 0.3);

    [Fact]
    public void The_nick_is_found_every_time_alone_on_its_edge_and_at_its_place()
    {
        Assert.All(photographs.All.Figures, figures =>
        {
            Nick nick = Assert.Single(figures.Nicks);
            Assert.Equal(EdgePart.Left, nick.Part);
            // The deepest of noisy points: within 0.03 mm, where the Gaussian has fallen by 6 µm.
            Assert.Equal(Blade.LengthMm - NickZ, nick.StationMm, 0.04);
        });
    }

    [Fact]
    public void Its_depth_and_length_are_right_within_their_uncertainty()
    {
        Nick[] nicks = [.. photographs.All.Figures.Select(f => f.Nicks[0])];
        double mean = nicks.Average(n => n.DepthUm.Value);
        // The smooth edge that bridges it and the flank's rest (1.3 %) leave a bias below 3 % of the depth.
        Assert.Equal(90, mean, 2.7);
        Assert.True(nicks.Count(n => Math.Abs(n.DepthUm.Value - 90) <= n.DepthUm.ExpandedUncertainty) >= Trials.LeastCovered(nicks.Length), $"mean {mean:0.0} µm");
        // Deeper than 20 µm over 2 σ √(2 ln(90/20)) = 0.2775 mm.
        Assert.Equal(2 * NickSigmaMm * Math.Sqrt(2 * Math.Log(90.0 / 20)), nicks.Average(n => n.LengthMm.Value), 0.01);
    }

    [Fact]
    public void Parts_run_left_toe_right_and_the_toe_ends_60_degrees_off_the_axis()
    {
        FaceFigures figures = photographs.All.Figures.First();
        EdgePart[] runs = [.. figures.Parts.Where((p, i) => i == 0 || figures.Parts[i - 1] != p)];
        Assert.Equal([EdgePart.Left, EdgePart.Toe, EdgePart.Right], runs);
        // Arc of 2 · 60° on 0.42 mm, in points.
        Assert.Equal(2 * Math.PI / 3 * 0.42 / ShapedBlade.SpacingMm, figures.Parts.Count(p => p == EdgePart.Toe), 4.0);
    }

    [Fact]
    public void Figures_that_a_curette_does_not_have_say_so()
    {
        FaceFigures figures = photographs.All.Figures.First();
        Assert.Contains("no pointed tip", figures.TipWidthUm.WhyMissing!, StringComparison.Ordinal);
        Assert.Contains("no tip arc", figures.TipArcRadiusMm.WhyMissing!, StringComparison.Ordinal);
        Assert.Equal([.. Enumerable.Range(1, figures.Widths.Length).Select(k => 0.5 * k)], figures.Widths.Select(w => w.StationMm));
        Assert.InRange(figures.Widths.Length, 10, 11);
    }

    public sealed class Photographs
    {
        internal Trials All { get; } = new(Blade, InstrumentFamily.UniversalCurette, 20250110, 150);
    }
}
