using EdgeLens.Imaging.Cards;
using Xunit;

namespace EdgeLens.Tests.Cards;

public sealed class CardPatternTests
{
    /// <summary>Every cell of the board but the window against OpenCV's drawing of it, 8 pixels to a bit; looked at in each bit's middle.</summary>
    [Fact]
    public void Black_and_white_are_those_of_the_board_that_OpenCV_draws()
    {
        CardDescription card = DefaultCard.Card;
        CardPattern pattern = new(card);
        MadeBoard board = MadeBoard.Of(card);
        int compared = 0;
        for (int y = 0; y < 25 * 8; y++)
            for (int x = 0; x < 40 * 8; x++)
            {
                DesignPoint p = new(card.Board.Origin.XMm + (x + 0.5) / 4, card.Board.Origin.YMm + (y + 0.5) / 4);
                if (card.Window.Touches(p)) continue;
                Assert.Equal(board.IsWhite(p), pattern.IsWhite(p));
                compared++;
            }
        Assert.Equal(40 * 25 * 64 - 12 * 5 * 64, compared);
    }

    /// <summary>The grid of steps, summed up again, is the pattern: at places off the lines, round a corner of each kind.</summary>
    [Theory]
    [InlineData(0.1)]
    [InlineData(0.9)]
    public void The_grid_round_a_corner_sums_up_to_the_pattern(double reachMm)
    {
        CardDescription card = DefaultCard.Card;
        CardPattern pattern = new(card);
        foreach (DesignPoint centre in card.MarkerCorners(40).Append(card.BoardCorners[100]))
        {
            PatternGrid grid = pattern.Around(centre, reachMm);
            for (double u = -reachMm + 0.013; u < reachMm; u += 0.031)
                for (double v = -reachMm + 0.011; v < reachMm; v += 0.031)
                {
                    int sum = 0;
                    for (int i = 0; i <= grid.LinesX.Length; i++)
                        for (int j = 0; j <= grid.LinesY.Length; j++)
                            if ((i == 0 || grid.LinesX[i - 1] < u) && (j == 0 || grid.LinesY[j - 1] < v)) sum += grid.Steps[i, j];
                    Assert.Equal(pattern.IsWhite(new(centre.XMm + u, centre.YMm + v)) ? 1 : 0, sum);
                }
        }
    }

    [Fact]
    public void Near_a_marker_s_corner_only_its_two_edges_remain()
    {
        PatternGrid grid = new CardPattern(DefaultCard.Card).Around(DefaultCard.Card.MarkerCorners(40)[0], 0.15);
        Assert.Equal((1, 1), (grid.LinesX.Length, grid.LinesY.Length));
        Assert.Equal(0, grid.LinesX[0], 9);
        Assert.Equal(0, grid.LinesY[0], 9);
    }
}
