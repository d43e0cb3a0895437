using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Sharpening;
using EdgeLens.Geometry.Figures;
using EdgeLens.Measuring.Views;
using Xunit;

namespace EdgeLens.Tests.Angles;

public sealed class StonePlanTests
{
    private static readonly Measured AsNew = new(75, 0.3);

    [Fact]
    public void A_stone_for_an_internal_angle_of_75_stands_at_105_to_the_face()
    {
        // Common practice: face to stone 100 to 110° for internal angles of 80 to 70°.
        Assert.Equal(105, StonePlan.For(AsNew, AsNew, null).StoneToFaceDeg.Value, 12);
        Assert.Equal(110, StonePlan.For(new Measured(70, 0.3), AsNew, null).StoneToFaceDeg.Value, 12);
    }

    [Fact]
    public void A_straight_over_cut_profile_costs_its_depth_times_the_difference_of_cotangents()
    {
        // By hand: cot 66° = 0.445229, cot 76° = 0.249328; 0.40 mm deep: 78.4 µm.
        StonePlan plan = StonePlan.For(new Measured(76, 0.3), new Measured(66, 0.4), Straight(66, 0.4));
        Assert.Equal(78.36, plan.CostUm.Measured!.Value.Value, 2);
        Assert.Equal(CutError.OverCut, plan.Error);
        Assert.Equal(10, plan.CorrectionDeg.Value, 12);
        // The same stone on 5° of change in either angle, by differences.
        double byToday = Cost(76, 66.4) - Cost(76, 66), byAsNew = Cost(76.3, 66) - Cost(76, 66);
        Assert.Equal(Math.Sqrt(byToday * byToday + byAsNew * byAsNew), plan.CostUm.Measured.Value.StandardUncertainty, 0.1);

        static double Cost(double asNew, double today) => StonePlan.For(new Measured(asNew, 0), new Measured(today, 0), Straight(today, 0.4)).CostUm.Measured!.Value.Value;
    }

    [Fact]
    public void An_under_cut_edge_costs_no_width()
    {
        StonePlan plan = StonePlan.For(AsNew, new Measured(82, 0.3), Straight(82, 0.4));
        Assert.Equal(0, plan.CostUm.Measured!.Value.Value, 12);
        Assert.Equal(CutError.UnderCut, plan.Error);
    }

    [Fact]
    public void A_profile_with_a_step_costs_what_its_deepest_set_back_needs()
    {
        SectionProfile stepped = new([new(0, 0), new(0.05, 0.2), new(0.2, 0.25)]);
        double cost = StonePlan.For(new Measured(90 - 1e-9, 0), new Measured(75, 0), stepped).CostUm.Measured!.Value.Value;
        Assert.Equal(200, cost, 3); // a stone square to the face must reach the farthest set-back place: 0.2 mm
    }

    [Fact]
    public void An_error_within_its_uncertainty_is_not_called_one() => Assert.Equal(CutError.None, StonePlan.For(AsNew, new Measured(74, 0.5), null).Error);

    [Fact]
    public void Without_a_profile_the_cost_is_missing_with_a_reason() => Assert.NotNull(StonePlan.For(AsNew, AsNew, null).CostUm.WhyMissing);

    [Fact]
    public void Angle_drift_is_today_less_as_new_with_both_uncertainties()
    {
        AngleDrift drift = AngleDrift.Between(Toe(new Measured(70, 0.3)), Toe(new Measured(66, 0.4))).Value;
        Assert.Equal(-4, drift.InternalAngleLeftDeg.Measured!.Value.Value, 12);
        Assert.Equal(0.5, drift.InternalAngleLeftDeg.Measured.Value.StandardUncertainty, 12);
        Assert.StartsWith("Today", drift.FaceAngleDeg.WhyMissing);
        Assert.StartsWith("As-new", AngleDrift.Between(Toe(Figure.Missing("hidden")), Toe(new Measured(66, 0.4))).Value.InternalAngleLeftDeg.WhyMissing);
    }

    [Fact]
    public void Angles_of_different_views_are_not_compared()
    {
        AngleMeasurement toe = Toe(new Measured(70, 0.3));
        Assert.Equal("other-view", AngleDrift.Between(toe, toe with { View = PhotographView.Side }).Refusal!.Code);
    }

    [Theory]
    [InlineData(PhotographView.Face, PhotographView.Toe, true)]
    [InlineData(PhotographView.Side, PhotographView.Side, false)]
    [InlineData(null, PhotographView.Side, false)]
    [InlineData(PhotographView.Face, null, false)]
    public void A_stated_view_that_contradicts_the_picture_is_refused(PhotographView? stated, PhotographView? seen, bool refused)
    {
        Refusal? refusal = ViewRecogniser.Contradiction(stated, seen);
        Assert.Equal(refused ? "wrong-view" : null, refusal?.Code);
        if (refused) Assert.Contains("toe", refusal!.Reason, StringComparison.Ordinal);
    }

    private static SectionProfile Straight(double angleDeg, double depthMm) => new([new(0, 0), new(depthMm / Math.Tan(angleDeg * Math.PI / 180), depthMm)]);

    private static AngleMeasurement Toe(Figure left) => new(
        new("a.jpg", "", 1, 1), InstrumentFamily.UniversalCurette, PhotographView.Toe, Figure.Missing("not asked"), left, left, null,
        Figure.Missing("side view"), Figure.Missing("side view"), null, null, []);
}
