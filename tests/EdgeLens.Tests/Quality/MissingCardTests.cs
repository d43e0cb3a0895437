using EdgeLens.Geometry.Figures;
using EdgeLens.Measuring.Quality;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Quality;

public sealed class MissingCardTests
{
    private static readonly Refusal NoCard = new("no-card", "No card.", "Show it.");

    [Fact]
    public void A_card_wiped_out_by_movement_is_refused_as_motion()
    {
        using Mat moved = CardScenes.Moved(16, 20);
        Assert.Equal("motion", MissingCard.Explain(moved, NoCard).Code);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void A_picture_of_many_discs_is_unrelated(int seed)
    {
        using Mat discs = CardScenes.Discs(seed);
        Refusal refusal = MissingCard.Explain(discs, NoCard);
        Assert.Equal("unrelated", refusal.Code);
        Assert.True(refusal.Figure > refusal.Limit);
    }

    [Fact]
    public void An_instrument_on_a_bare_table_just_lacks_the_card()
    {
        using Mat table = CardScenes.BareTable();
        Assert.Same(NoCard, MissingCard.Explain(table, NoCard));
    }

    [Fact]
    public void Another_reason_is_passed_on()
    {
        Refusal other = new("few-markers", "Too few.", "More.");
        using Mat discs = CardScenes.Discs(1);
        Assert.Same(other, MissingCard.Explain(discs, other));
    }
}
