using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Assessment.Sharpening;
using EdgeLens.Geometry.Figures;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.Grinding;

/// <summary>Outside: the geometry of a rounding by hand; strokes, order and angles are common practice.</summary>
public sealed class SharpeningPlanTests
{
    private static readonly Dictionary<EdgePart, StonePlan> NoStones = [];

    [Fact]
    public void A_rounding_of_radius_r_costs_r_whatever_the_angle()
    {
        // By construction: the corner of face (y = 0) and lateral surface (internal angle β) at x = 0, steel at x > 0. A circle of radius r touches both: centre (r cot(β/2), -r).
        // The silhouette from above is the circle's least x, r cot(β/2) - r; the face begins where the circle touches it, r cot(β/2). The difference is r.
        foreach (double beta in new[] { 60.0, 70, 75, 80 })
        {
            double cot = 1 / Math.Tan(beta * Math.PI / 360), r = 20, centre = r * cot;
            Assert.Equal(r, centre - (centre - r), 9);
        }
        SyntheticWorkingEnd end = SyntheticCases.SlightlyDull;
        FaceMeasurement today = WithRadius(end.Today(), EdgePart.Left, new(18, 3));
        SharpeningStep step = Assert.Single(SharpeningPlan.For(today, Decide(today), NoStones).Steps);
        Assert.Equal(new Measured(18, 3), step.CostUm.Measured);
    }

    [Fact]
    public void A_touch_up_names_the_stretch_and_the_family_s_angle()
    {
        FaceMeasurement today = SyntheticCases.SlightlyDull.Today();
        SharpeningPlan plan = SharpeningPlan.For(today, Decide(today), NoStones);
        SharpeningStep step = Assert.Single(plan.Steps);
        Assert.Equal((EdgePart.Left, false, true), (step.Edge, step.IsFull, step.IsAngleOfFamily));
        Assert.NotEmpty(step.Where);
        // Internal angle 70 to 80°: the stone at 105° to the face.
        Assert.Equal(105, step.StoneToFaceDeg.Value);
        Assert.Contains("a few light strokes", step.Words, StringComparison.Ordinal);
        Assert.Contains("105° to the face", step.Words, StringComparison.Ordinal);
        Assert.Contains(plan.After, a => a.Contains("Photograph it again", StringComparison.Ordinal));
    }

    [Fact]
    public void The_nicked_edge_comes_first_and_costs_its_nick()
    {
        FaceMeasurement today = SyntheticCases.DullAndNicked.Today();
        SharpeningPlan plan = SharpeningPlan.For(today, Decide(today), NoStones);
        Assert.Equal([EdgePart.Right, EdgePart.Left], plan.Steps.Select(s => s.Edge));
        Assert.All(plan.Steps, s => Assert.True(s.IsFull));
        Assert.True(plan.Steps[0].CostUm.Measured!.Value.Value >= 62);
    }

    [Fact]
    public void Of_an_area_specific_curette_only_the_working_edge_is_ground()
    {
        FaceMeasurement today = (SyntheticCases.DullAndNicked with { Family = InstrumentFamily.AreaSpecificCurette }).Today();
        Verdict verdict = VerdictDecider.Decide(today, null, Policy.Default, EdgePart.Left);
        SharpeningPlan plan = SharpeningPlan.For(today, verdict, NoStones, EdgePart.Left);
        Assert.Equal(EdgePart.Left, Assert.Single(plan.Steps).Edge);
        Assert.Contains(plan.Before, b => b.Contains("only the left edge", StringComparison.Ordinal));
    }

    [Fact]
    public void A_luxator_is_sharpened_at_45_degrees_and_finished_upwards()
    {
        FaceMeasurement today = SyntheticCases.DullLuxator.Today();
        SharpeningPlan plan = SharpeningPlan.For(today, Decide(today), NoStones);
        SharpeningStep step = Assert.Single(plan.Steps);
        Assert.Equal((EdgePart.Toe, 135.0), (step.Edge, step.StoneToFaceDeg.Value));
        Assert.Contains("45° to the opposite surface", step.Words, StringComparison.Ordinal);
        Assert.Contains(plan.After, a => a.Contains("upward stroke", StringComparison.Ordinal));
    }

    [Fact]
    public void A_measured_angle_goes_before_the_family_s_and_its_correction_costs_steel()
    {
        FaceMeasurement today = WithRadius(SyntheticCases.SlightlyDull.Today(), EdgePart.Left, new(18, 3));
        StonePlan stone = new(new(103, 1), new(7, 1.4), CutError.OverCut, new Measured(24, 4));
        SharpeningStep step = Assert.Single(SharpeningPlan.For(today, Decide(today), new Dictionary<EdgePart, StonePlan> { [EdgePart.Left] = stone }).Steps);
        Assert.Equal((103.0, false), (step.StoneToFaceDeg.Value, step.IsAngleOfFamily));
        Assert.Equal(new Measured(42, 5), step.CostUm.Measured); // 18 + 24; 3 and 4 make 5
        Assert.Contains("too thin", step.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_is_ground_on_what_is_kept_or_retired()
    {
        Assert.Empty(SharpeningPlan.For(SyntheticCases.Sharp.Today(), Decide(SyntheticCases.Sharp.Today()), NoStones).Steps);
        FaceMeasurement worn = SyntheticCases.Worn.Today();
        Assert.Empty(SharpeningPlan.For(worn, VerdictDecider.Decide(worn, SyntheticCases.Worn.Drift(), Policy.Default), NoStones).Steps);
    }

    private static Verdict Decide(FaceMeasurement today) => VerdictDecider.Decide(today, null, Policy.Default);

    private static FaceMeasurement WithRadius(FaceMeasurement face, EdgePart part, Measured radius) => face with
    {
        Light = face.Light with { Edges = [.. face.Light.Edges.Select(e => e.Part == part ? e with { Radius = e.Radius with { GreatestUm = radius } } : e)] },
    };
}
