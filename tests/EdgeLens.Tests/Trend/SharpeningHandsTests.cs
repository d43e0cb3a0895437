using System.Collections.Immutable;
using EdgeLens.Assessment.Trend;
using Xunit;

namespace EdgeLens.Tests.Trend;

/// <summary>Outside: made truth.</summary>
public sealed class SharpeningHandsTests
{
    private static readonly MadeHistory Set = new() { Hands = ["AB", "CD", "EF"], HandUm = [0, 0, 25], Inspections = 6 };

    [Fact]
    public void The_heavy_hand_is_found()
    {
        SharpeningHands hands = SharpeningHands.Compare(Made(Set, 8, 21)).Value;
        Assert.Equal(["AB", "CD", "EF"], hands.Hands.Select(h => h.By));
        Assert.Equal(48, hands.Hands.Sum(h => h.Sharpenings));
        Assert.True(hands.Hands[2].TakesMore);
        // 65 µm and 25 more than the others, each within three of its uncertainties.
        Assert.InRange((hands.Hands[2].LossPerSharpening.Value - 65) / hands.Hands[2].LossPerSharpening.StandardUncertainty, -3, 3);
        Assert.InRange((hands.Hands[2].MoreThanOthers.Measured!.Value.Value - 25) / hands.Hands[2].MoreThanOthers.Measured!.Value.StandardUncertainty, -3, 3);
        Assert.InRange((hands.LossPerProcedure.Measured!.Value.Value - 0.5) / hands.LossPerProcedure.Measured!.Value.StandardUncertainty, -3, 3);
    }

    [Fact]
    public void Nobody_is_blamed_where_all_are_alike()
    {
        // In at most 5 % of the sets is anybody told from the others; of 200 sets 10 ± 3.3 · 3.1 = at most 20.
        MadeHistory alike = Set with { HandUm = [0, 0, 0] };
        Assert.InRange(Enumerable.Range(0, 200).Count(seed => SharpeningHands.Compare(Made(alike, 4, 1000 + seed)).Value.Hands.Any(h => h.TakesMore is not null)), 0, 20);
    }

    [Fact]
    public void One_person_alone_is_compared_with_nobody()
    {
        SharpeningHand hand = Assert.Single(SharpeningHands.Compare(Made(Set with { Hands = ["AB"], HandUm = [0] }, 3, 2)).Value.Hands);
        Assert.Null(hand.MoreThanOthers.Measured);
        Assert.Null(hand.TakesMore);
    }

    [Fact]
    public void Mixed_versions_and_measures_and_too_few_inspections_are_refused()
    {
        ImmutableArray<WearHistory> set = Made(Set, 2, 3);
        WearHistory other = set[1] with { Inspections = [.. set[1].Inspections.Select(o => o with { ProgramVersion = "2.0" })] };
        Assert.Equal("trend-mixed-versions", SharpeningHands.Compare([set[0], other]).Refusal!.Code);
        Assert.Equal("trend-mixed-measures", SharpeningHands.Compare([set[0], set[1] with { Measure = new("lengthLossMm", "mm") }]).Refusal!.Code);
        Assert.Equal("trend-too-few-points", SharpeningHands.Compare([set[0] with { Inspections = set[0].Inspections[..2] }]).Refusal!.Code);
    }

    private static ImmutableArray<WearHistory> Made(MadeHistory set, int workingEnds, int seed)
    {
        Random random = new(seed);
        return [.. Enumerable.Range(0, workingEnds).Select(_ => set.Make(random).History)];
    }
}
