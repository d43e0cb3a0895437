using System.Collections.Immutable;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.Drift;

/// <summary>Outside: made truth, losses by formula. Each loss has u = 3 µm, so a difference of two has U = 8.5 µm.</summary>
public sealed class ShapeFindingsTests
{
    [Fact]
    public void Even_grinding_is_no_fault() => Assert.Empty(Of(Curette((part, _) => part == EdgePart.Toe ? 35 : 40)));

    [Fact]
    public void A_hollow_is_named_with_its_place_and_depth()
    {
        // 40 µm deep, Gaussian of 0.35 mm about 1.8 mm; the edge in question is what lies within 60 % of the blade, 0.3 to 2.6 mm.
        ShapeFinding found = Assert.Single(Of(Curette((part, s) => 30 + (part == EdgePart.Left ? 40 * Math.Exp(-0.5 * Math.Pow((s - 1.8) / 0.35, 2)) : 0))), f => f.Fault == ShapeFault.Hollow);
        Assert.Equal(EdgePart.Left, found.Part);
        Assert.InRange(found.AmountUm.Value, 25, 42);
        Assert.True(found.Where!.Value.FromStationMm < 1.8 && found.Where.Value.ToStationMm > 1.8);
        Assert.Contains("hollow", found.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void One_edge_ground_more_than_the_other_is_named_but_not_on_an_area_specific_curette()
    {
        SyntheticWorkingEnd end = Curette((part, _) => part == EdgePart.Right ? 70 : part == EdgePart.Toe ? 35 : 30);
        ShapeFinding found = Assert.Single(Of(end));
        Assert.Equal((ShapeFault.OneSided, EdgePart.Right), (found.Fault, found.Part));
        Assert.InRange(found.AmountUm.Value, 37, 43);
        Assert.Contains("right one", found.Words, StringComparison.Ordinal);
        Assert.Empty(Of(end with { Family = InstrumentFamily.AreaSpecificCurette }));
    }

    [Fact]
    public void An_edge_ground_more_towards_the_toe_is_named()
    {
        ShapeFinding[] found = [.. Of(Curette((part, s) => part == EdgePart.Toe ? 60 : Math.Max(0, 70 - 20 * s)))];
        Assert.Equal([ShapeFault.Tapered, ShapeFault.Tapered], found.Select(f => f.Fault));
        Assert.All(found, f => Assert.Contains("more towards the toe", f.Words, StringComparison.Ordinal));
    }

    [Theory]
    // As-new 419 ± 12 µm. A toe ground back by 60 µm evenly has 359; three quarters of that are 269, U = 15 or so.
    [InlineData(359, false)]
    [InlineData(265, false)]
    [InlineData(240, true)]
    public void A_pointed_toe_is_told_from_a_smaller_one(double radiusUm, bool isPointed)
    {
        SyntheticWorkingEnd end = Curette((_, _) => 60);
        FaceMeasurement today = end.Today() with { ToeRadiusUm = new Measured(radiusUm, 6) };
        DriftMeasurement drift = end.Drift() with { LengthLossUm = new Measured(60, 4) };
        Assert.Equal(isPointed, ShapeFindings.Of(end.AsNew(), today, drift).Any(f => f.Fault == ShapeFault.PointedToe));
    }

    /// <summary>A pointed toe is no circle, so that its radius is uncertain: what its shoulders lost more than its end tells it too. The made toe's semi-axis is 0.4 mm or so; 0.05 mm back its normal is past 15°.</summary>
    [Theory]
    [InlineData(60, true)]
    [InlineData(12, false)]
    public void Shoulders_ground_more_than_the_end_make_a_pointed_toe_whatever_its_radius(double moreUm, bool isPointed)
    {
        SyntheticWorkingEnd end = Curette((part, s) => part == EdgePart.Toe && s < 0.03 ? 40 : 40 + moreUm);
        FaceMeasurement today = end.Today() with { ToeRadiusUm = new Measured(300, 60) };
        Assert.Equal(isPointed, ShapeFindings.Of(end.AsNew(), today, end.Drift()).Any(f => f.Fault == ShapeFault.PointedToe));
    }

    [Fact]
    public void What_the_uncertainty_covers_is_not_named()
    {
        SyntheticWorkingEnd end = Curette((part, _) => part == EdgePart.Right ? 60 : 30);
        DriftMeasurement drift = end.Drift();
        drift = drift with { EdgeLoss = [.. drift.EdgeLoss.Select(s => s with { LossUm = new Measured(s.LossUm.Measured!.Value.Value, 12) })] };
        // 30 µm apart, U = 2 · 12 · √2 = 34.
        Assert.Empty(ShapeFindings.Of(end.AsNew(), end.Today(), drift));
    }

    private static SyntheticWorkingEnd Curette(Func<EdgePart, double, double> lossUm) => new() { LossUm = lossUm };

    private static ImmutableArray<ShapeFinding> Of(SyntheticWorkingEnd end) =>
        ShapeFindings.Of(end.AsNew() with { ToeRadiusUm = Figure.Missing("not asked") }, end.Today(), end.Drift());
}
