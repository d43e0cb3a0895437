using System.Collections.Immutable;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Policies;
using EdgeLens.Assessment.Trend;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using Xunit;

namespace EdgeLens.Tests.Trend;

/// <summary>Outside: quadrature by hand (3, 4, 5).</summary>
public sealed class WearReadingTests
{
    private static readonly UncertaintyBudget Budget = new([new("today", 4), new("as-new", 3) { Origin = ContributionOrigin.AsNew }]);

    private static readonly DriftMeasurement Drift = new(
        Similarity.Identity, 1, [], new Measured(60, 5), new Measured(50, 5), [new(0.5, new(90, 5), new(30, 5)), new(1.0, new(50, 5), new(12, 5)), new(2.0, new(60, 5), new(14, 5))],
        new Measured(400, 5), Figure.Missing("not seen"), new Measured(3, 1))
    {
        Budgets = [.. new[] { 0.5, 1.0, 2.0 }.Select(s => new FigureBudget("widthLossPercent", s, Budget)), new("lengthLossUm", null, Budget), new("meanEdgeLossUm", null, Budget)],
    };

    [Fact]
    public void A_reading_is_what_the_verdict_judges_with_the_share_that_as_new_has_in_it()
    {
        ImmutableArray<WearReading> readings = WearReading.Of(Drift, Policy.Default.For(InstrumentFamily.UniversalCurette));
        // Station 0.5 lies outside the judged ones (1.0 to 2.5 mm).
        Assert.Equal(14, readings[0].Loss.Measured!.Value.Value);
        Assert.Equal((3.0, 10.0, 20.0), (readings[0].SharedStandardUncertainty, readings[0].WatchLimit, readings[0].RetireLimit));
        Assert.Equal((0.4, 0.003), (readings[1].Loss.Measured!.Value.Value, readings[1].SharedStandardUncertainty));
        Assert.Equal((50.0, 3.0), (readings[2].Loss.Measured!.Value.Value, readings[2].SharedStandardUncertainty));
        Assert.Null(readings[3].ObservedAt(new(2025, 3, 1), "1.0"));
        Assert.Equal(new WearObservation(new(2025, 3, 1), new(50, 5), 3, "1.0"), readings[2].ObservedAt(new(2025, 3, 1), "1.0"));
    }
}
