using System.Text.Json.Nodes;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Geometry.Figures;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.Decision;

/// <summary>Outside: ISO 14253-1's zones, and the mean of n by hand.</summary>
public sealed class DecidingTests
{
    private static readonly FaceMeasurement Curette = SyntheticCases.Sharp.Today();
    private static readonly DriftMeasurement NoDrift = SyntheticCases.Sharp.Drift();

    [Theory]
    // U of the mean of n is 2 √(common² + u² / n); it must be at most the distance.
    [InlineData(2, 0, 4, 1)] // U = 4
    [InlineData(2, 0, 3, 2)] // 4 / √2 = 2.83
    [InlineData(2, 1, 3, 4)] // 1 + 4 / n <= 2.25: n = 3.2
    [InlineData(2, 0, 1.5, 8)] // 16 / n <= 2.25: 7.1
    public void The_number_of_photographs_is_the_least_whose_mean_is_sure_enough(double perPhotograph, double common, double distance, int expected) =>
        Assert.Equal(expected, Deciding.Photographs(perPhotograph, common, distance));

    [Fact]
    public void What_all_photographs_share_is_not_averaged_away()
    {
        Assert.Null(Deciding.Photographs(2, 1.5, 3));
        Assert.Null(Deciding.Photographs(2, 0, 1.2)); // eleven are no advice
    }

    [Fact]
    public void Two_more_photographs_are_asked_for_where_three_decide()
    {
        // 1.5 percentage points below the limit, u = 1.2 from the photograph alone: 4 · 1.44 / 2.25 = 2.6.
        string words = Open(new UncertaintyContribution("noise", 1.2) { Remedy = ContributionRemedy.AnotherPhotograph }).Words;
        Assert.Contains("mean of 3 photographs would decide", words, StringComparison.Ordinal);
        Assert.Contains("take 2 more", words, StringComparison.Ordinal);
    }

    [Fact]
    public void The_remedy_of_the_largest_contribution_is_named()
    {
        Assert.Contains("height of the face over the card to 0.3 mm", Open(new UncertaintyContribution("height", 1.2) { Remedy = ContributionRemedy.KnownHeight }).Words, StringComparison.Ordinal);
        Assert.Contains("measure the caliper bars", Open(new UncertaintyContribution("print", 1.2) { Remedy = ContributionRemedy.MeasuredCard }).Words, StringComparison.Ordinal);
        string both = Open(new UncertaintyContribution("print", 1.0) { Remedy = ContributionRemedy.MeasuredCard }, new UncertaintyContribution("height", 0.9) { Remedy = ContributionRemedy.KnownHeight }).Words;
        Assert.True(both.IndexOf("bars", StringComparison.Ordinal) < both.IndexOf("height", StringComparison.Ordinal));
    }

    [Fact]
    public void Where_nothing_helps_the_report_says_so()
    {
        string words = Open(new UncertaintyContribution("noise of the as-new outline", 1.2)).Words;
        Assert.Contains("no practical number of photographs", words, StringComparison.Ordinal);
        Assert.Contains("noise of the as-new outline", words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(2.9, 1, VerdictKind.Keep, Conformity.Inside)]
    [InlineData(-4.5, 1, VerdictKind.Keep, Conformity.NotDecidable)] // 2.5 to 6.5 holds 5: watched at most, and kept
    [InlineData(-7.1, 1, VerdictKind.Resharpen, Conformity.Outside)]
    [InlineData(7.1, 1, VerdictKind.Resharpen, Conformity.Outside)]
    public void An_angle_calls_for_the_stone_only_when_it_is_clear_either_way(double driftDeg, double u, VerdictKind expected, Conformity conformity)
    {
        AngleDrift drift = new(Figure.Missing("no toe view"), new Measured(driftDeg, u), Figure.Missing("no toe view"), Figure.Missing("no side view"));
        Verdict verdict = VerdictDecider.Decide(Curette, NoDrift, Policy.Default, angles: drift);
        LimitCheck check = Assert.Single(verdict.Checks, c => c is { What: CheckedFigure.InternalAngleDrift, Role: LimitRole.Resharpen });
        Assert.Equal((expected, conformity, driftDeg), (verdict.Kind, check.Conformity, check.SignedValue));
        if (conformity == Conformity.Outside)
            Assert.Contains(verdict.Reasons, r => r.Words.Contains(driftDeg < 0 ? "smaller than as-new" : "greater than as-new", StringComparison.Ordinal));
    }

    [Fact]
    public void The_other_edge_of_an_area_specific_curette_is_not_judged_by_its_angle()
    {
        AngleDrift drift = new(Figure.Missing("-"), new Measured(9, 1), new Measured(1, 1), Figure.Missing("-"));
        Assert.Equal(VerdictKind.Keep, VerdictDecider.Decide(Curette with { Family = Assessment.Instruments.InstrumentFamily.AreaSpecificCurette }, null, Policy.Default, EdgePart.Right, angles: drift).Kind);
    }

    [Fact]
    public void A_policy_without_the_newer_limits_judges_without_them()
    {
        JsonNode old = JsonNode.Parse(Policy.DefaultJson)!;
        foreach (JsonObject part in (JsonObject[])[old["limits"]!.AsObject(), old["reasons"]!.AsObject(), .. old["families"]!.AsObject().Select(f => f.Value!.AsObject())])
            foreach (string name in part.Select(m => m.Key).Where(n => n.Contains("Drift", StringComparison.Ordinal) || n.StartsWith("edgeRadius", StringComparison.Ordinal)).ToArray()) part.Remove(name);
        Policy policy = PolicyReader.Read(old.ToJsonString()).Value;
        Assert.Null(policy.For(Assessment.Instruments.InstrumentFamily.UniversalCurette).AngleDriftResharpenDeg);
        Assert.Null(policy.For(Assessment.Instruments.InstrumentFamily.UniversalCurette).ShapeDriftWatchUm);
    }

    private static VerdictReason Open(params UncertaintyContribution[] contributions)
    {
        UncertaintyBudget budget = new([.. contributions]);
        DriftMeasurement drift = NoDrift with { WidthLosses = [new(2, new(150, 9), new(18.5, budget.Combined))], Budgets = [new("widthLossPercent", 2, budget)] };
        return Assert.Single(VerdictDecider.Decide(Curette, drift, Policy.Default).Reasons, r => r.Open is { Role: LimitRole.Retire } || r.Check is { Role: LimitRole.Retire, IsOpen: true });
    }
}
