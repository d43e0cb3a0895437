using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using Xunit;

namespace EdgeLens.Tests.Reflection;

public sealed class EdgeLightFiguresTests
{
    private static readonly EdgeLightFigures Figures = new(4, 0.1, 0.1);

    /// <summary>A side of 3 mm, dull (30 µm, line of 10 µm) from 0.5 to 1.1 mm from the apex.</summary>
    private static LightSample[] Side(double ownUm = 2) =>
        [.. Enumerable.Range(0, 30).Select(i => Sample(i * 0.1, i is >= 5 and <= 10 ? 30 : 3, ownUm))];

    private static LightSample Sample(double stationMm, double radiusUm, double ownUm) => new(stationMm, EdgePart.Left, stationMm,
        new Measured(radiusUm / 3, Quadrature.Sum(ownUm / 3, 0.1 * radiusUm / 3)), new Measured(radiusUm, Quadrature.Sum(ownUm, 0.1 * radiusUm)));

    [Fact]
    public void The_working_third_is_the_one_next_to_the_end()
    {
        Measured third = Figures.Sum(EdgePart.Left, Side()).Radius.WorkingThirdUm.Measured!.Value;
        // 0 to 0.9 mm: five samples dull, five sharp.
        Assert.Equal((5 * 30.0 + 5 * 3) / 10, third.Value, 1e-9);
    }

    [Fact]
    public void Stations_are_means_over_half_a_millimetre()
    {
        EdgeRadiusSummary radius = Figures.Sum(EdgePart.Left, Side()).Radius;
        // 0.8 to 1.2 mm: three samples dull, two sharp.
        Assert.Equal((3 * 30.0 + 2 * 3) / 5, radius.At1MmUm.Measured!.Value.Value, 1e-9);
        Assert.Equal(3, radius.At2MmUm.Measured!.Value.Value, 1e-9);
    }

    /// <summary>What samples share (the light) does not average out, what is their own does (JCGM 100:2008, 5.2.2: coefficient 1 and 0).</summary>
    [Fact]
    public void Only_what_samples_do_not_share_averages_out()
    {
        Measured greatest = Figures.Sum(EdgePart.Left, Side()).Radius.GreatestUm.Measured!.Value;
        Assert.Equal(30, greatest.Value, 1e-9);
        Assert.Equal(Quadrature.Sum(2 / Math.Sqrt(5), 0.1 * 30), greatest.StandardUncertainty, 1e-9);
    }

    [Fact]
    public void A_dull_stretch_has_start_length_and_greatest_radius()
    {
        DullStretch dull = Assert.Single(Figures.Sum(EdgePart.Left, Side()).DullStretches);
        Assert.Equal((0.5, 1.0, 0.6), (dull.FromStationMm, dull.ToStationMm, dull.LengthMm), (a, b) => Math.Abs(a.Item1 - b.Item1) + Math.Abs(a.Item2 - b.Item2) + Math.Abs(a.Item3 - b.Item3) < 1e-9);
        Assert.Equal(30, dull.GreatestRadiusUm.Measured!.Value.Value, 1e-9);
    }

    [Fact]
    public void Where_light_reaches_in_part_only_the_line_counts_and_the_radius_does_not()
    {
        LightSample[] partial = [.. Side().Select(s => s with { RadiusUm = Figure.Missing("in part") })];
        EdgeLightSummary sum = Figures.Sum(EdgePart.Left, partial);
        Assert.NotNull(sum.ReflectingFractionPercent.Measured);
        Assert.Single(sum.DullStretches);
        Assert.Equal("in part", sum.Radius.GreatestUm.WhyMissing);
        Assert.Equal("in part", sum.Radius.At1MmUm.WhyMissing);
    }

    [Fact]
    public void An_edge_that_stays_dark_has_no_figures()
    {
        LightSample[] dark = [.. Side().Select(s => s with { ReflectionWidthUm = Figure.Missing("dark"), RadiusUm = Figure.Missing("dark") })];
        EdgeLightSummary sum = Figures.Sum(EdgePart.Left, dark);
        Assert.Equal(("dark", "dark"), (sum.ReflectingFractionPercent.WhyMissing, sum.Radius.GreatestUm.WhyMissing));
    }

    [Fact]
    public void Round_a_toe_there_are_no_stations_and_all_of_it_works()
    {
        LightSample[] toe = [.. Side().Select(s => s with { Part = EdgePart.Toe })];
        EdgeRadiusSummary radius = Figures.Sum(EdgePart.Toe, toe).Radius;
        Assert.Null(radius.At1MmUm.Measured);
        Assert.Equal((6 * 30.0 + 24 * 3) / 30, radius.WorkingThirdUm.Measured!.Value.Value, 1e-9);
    }
}
