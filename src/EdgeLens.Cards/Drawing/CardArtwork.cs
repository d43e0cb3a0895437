using System.Collections.Immutable;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Cards.Drawing;

/// <summary>What is printed on a card, as shapes in the card's millimetres, in the order of drawing; PDF, SVG and PNG are three ways to draw the same shapes.</summary>
/// <param name="WidthMm">Of the card.</param>
/// <param name="HeightMm">Of the card.</param>
/// <param name="Black">
/// Full ink: squares, markers (the black runs of each row of bits), bars, the tab's ground. To be filled as ONE path: two rectangles that are filled one after the other
/// each cover a pixel on their common border only in part, and a light hairline stays between them; within one path the border cancels out.
/// </param>
/// <param name="Patches">Drawn over the black.</param>
/// <param name="CutLine">Closed polygon, the middle of a line of <see cref="LineWidthMm"/> that lies wholly inside the window and falls away with it.</param>
/// <param name="Labels">Text in the margins and inside the window.</param>
internal sealed record CardArtwork(
    double WidthMm, double HeightMm, ImmutableArray<DesignRectangle> Black, ImmutableArray<PatchInk> Patches, ImmutableArray<DesignPoint> CutLine, ImmutableArray<CardLabel> Labels)
{
    /// <summary>Thin enough to cut along its edge, thick enough for any printer (2.4 dots at 600 dpi).</summary>
    internal const double LineWidthMm = 0.1;

    /// <summary>Thickness of the caliper bars: what the jaws meet at the ends.</summary>
    internal const double BarThicknessMm = 0.4;

    /// <summary>Grey of the words inside the window, 0 to 255: readable, and clearly not part of the pattern.</summary>
    internal const byte CutAwayTone = 128;

    private const double LabelGapMm = 0.8;

    internal static CardArtwork Of(CardDescription card) => new(
        card.OuterWidthMm, card.OuterHeightMm,
        [.. Squares(card), .. card.StandingMarkers.SelectMany(id => MarkerRuns(card, id)), Bar(card.BarX), Bar(card.BarY), .. card.Patches.IsEmpty ? [] : (DesignRectangle[])[card.Tab]],
        [.. card.Patches.Select(p => new PatchInk(p.Area, PatchInk.ToneFor(p.Reflectance, PaperReflectance(card))))],
        Cut(card), [.. Labelled(card)]);

    /// <summary>The brightest patch is bare paper.</summary>
    internal static double PaperReflectance(CardDescription card) => card.Patches.Max(p => p.Reflectance);

    private static IEnumerable<DesignRectangle> Squares(CardDescription card) =>
        from row in Enumerable.Range(0, card.Board.SquaresY)
        from column in Enumerable.Range(0, card.Board.SquaresX)
        where card.Board.IsBlack(column, row) && card.IsStanding(new(column, row))
        select card.Board.Square(column, row);

    private static IEnumerable<DesignRectangle> MarkerRuns(CardDescription card, int id)
    {
        ImmutableArray<bool> white = card.Board.Dictionary.Cells(id);
        DesignRectangle area = card.MarkerArea(id);
        int side = card.Board.Dictionary.BitsPerSide + 2;
        double bit = card.Board.BitMm;
        for (int row = 0; row < side; row++)
        {
            for (int from = 0; from < side;)
            {
                int to = from;
                while (to < side && !white[row * side + to]) to++;
                if (to > from) yield return new(area.XMm + from * bit, area.YMm + row * bit, (to - from) * bit, bit);
                from = to + 1;
            }
        }
    }

    private static DesignRectangle Bar(CaliperBar bar) => bar.IsHorizontal
        ? new(bar.Start.XMm, bar.Start.YMm - BarThicknessMm / 2, bar.LengthMm, BarThicknessMm)
        : new(bar.Start.XMm - BarThicknessMm / 2, bar.Start.YMm, BarThicknessMm, bar.LengthMm);

    /// <summary>Around the window but for the tab, half a line's width inside: whoever cuts along the line's outer edge cuts the window true.</summary>
    private static ImmutableArray<DesignPoint> Cut(CardDescription card)
    {
        const double In = LineWidthMm / 2;
        (DesignRectangle w, DesignRectangle t) = (card.Window, card.Tab);
        double left = w.XMm + In, top = w.YMm + In, right = w.RightMm - In, bottom = w.BottomMm - In;
        return t is { WidthMm: > 0, HeightMm: > 0 }
            ? [new(t.RightMm + In, top), new(right, top), new(right, bottom), new(left, bottom), new(left, t.BottomMm + In), new(t.RightMm + In, t.BottomMm + In)]
            : [new(left, top), new(right, top), new(right, bottom), new(left, bottom)];
    }

    private static IEnumerable<CardLabel> Labelled(CardDescription card)
    {
        (CaliperBar x, CaliperBar y) = (card.BarX, card.BarY);
        DesignRectangle board = card.Board.Area;
        string name = $"EdgeLens {card.Name}";
        CardLabel? left = CardLabel.Fitted(name, new(board.XMm, x.Start.YMm), x.Start.XMm - board.XMm - LabelGapMm);
        return new CardLabel?[]
        {
            left,
            CardLabel.Fitted(left is null ? $"{Length(x)} · {name}" : Length(x), new(x.Start.XMm + x.LengthMm + LabelGapMm, x.Start.YMm), board.RightMm - x.Start.XMm - x.LengthMm - LabelGapMm),
            CardLabel.Fitted(Length(y), new(y.Start.XMm, y.Start.YMm + y.LengthMm + LabelGapMm), board.BottomMm - y.Start.YMm - y.LengthMm - LabelGapMm) is { } below ? below with { IsDownwards = true } : null,
            Inside("cut out along the outer edge of the line", 0.5),
            Inside("matt black ground about 5 mm behind", 0.7),
        }.OfType<CardLabel>();

        static string Length(CaliperBar bar) => FormattableString.Invariant($"{bar.LengthMm:0.00} mm");

        CardLabel? Inside(string text, double share) => card.Window.HeightMm < 5
            ? null
            : CardLabel.Fitted(text, new(card.Window.XMm + LabelGapMm, card.Window.YMm + share * card.Window.HeightMm), card.Window.WidthMm - 2 * LabelGapMm) is { } l ? l with { Tone = CutAwayTone } : null;
    }
}
