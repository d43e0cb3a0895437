using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Sharpening;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.Reflection;

public sealed class SharpeningResultTests
{
    [Fact]
    public void An_edge_without_a_line_is_finished_and_the_steel_that_went_is_told()
    {
        Inspection after = SyntheticCases.Worn.Inspect();
        SharpenedEdge left = SharpeningResult.Of(after)!.Edges.Single(e => e.Part == EdgePart.Left);
        Assert.Equal(SharpeningStage.Finished, left.Stage);
        Assert.Empty(left.GoOnAt);
        // Ground by up to 130 µm on the left, less towards the heel.
        Assert.InRange(left.RemovedUm.Measured!.Value.Value, 60, 130);
    }

    [Fact]
    public void A_dull_edge_says_where_to_go_on()
    {
        SharpenedEdge[] edges = [.. SharpeningResult.Of(SyntheticCases.DullAndNicked.Inspect())!.Edges];
        SharpenedEdge dull = edges.First(e => e.Stage == SharpeningStage.GoOn);
        Assert.NotEmpty(dull.GoOnAt);
        Assert.True(dull.RadiusAfterUm.Measured!.Value.Value > dull.RadiusBeforeUm.Measured!.Value.Value + 5);
    }

    [Fact]
    public void An_edge_that_the_light_does_not_show_is_not_called_finished() =>
        Assert.Equal(SharpeningStage.NotDecidable, SharpeningResult.Of(SyntheticCases.LuxatorLitFromTheSides.Inspect())!.Edges.Single().Stage);
}
