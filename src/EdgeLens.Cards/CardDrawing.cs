using EdgeLens.Cards.Drawing;
using EdgeLens.Cards.Sheets;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Cards;

/// <summary>Draws a reference card at true scale from its description. The same description gives the same bytes.</summary>
public static class CardDrawing
{
    /// <summary>
    /// A document to print: page 1 the card with lines for the measured lengths, page 2 how to print, measure, cut out and use it. The best form to print from:
    /// vectors, and a page size that the printer knows.
    /// </summary>
    /// <param name="target">Written to, left open.</param>
    /// <param name="card">What to draw.</param>
    /// <param name="paper">Page size; the card must fit, see <see cref="PaperSize.Takes"/>.</param>
    /// <exception cref="ArgumentException">The card does not fit on the paper.</exception>
    public static void WritePdf(Stream target, CardDescription card, PaperSize paper)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(paper);
        if (!paper.Takes(card))
            throw new ArgumentException(FormattableString.Invariant($"Card {card.Name} ({card.OuterWidthMm} x {card.OuterHeightMm} mm) does not fit on {paper.Name}."), nameof(paper));
        PdfSheets.Write(target, card, paper);
    }

    /// <summary>The card alone as SVG, one user unit a millimetre, for a print shop or a laser engraver.</summary>
    /// <param name="card">What to draw.</param>
    public static string ToSvg(CardDescription card)
    {
        ArgumentNullException.ThrowIfNull(card);
        return SvgCard.Draw(CardArtwork.Of(card), $"EdgeLens reference card {card.Name}");
    }

    /// <summary>
    /// The card alone as an 8-bit grey PNG with its resolution written in it. It prints true to size only from a program that honours the resolution
    /// (many fit a picture to the page): the PDF is the safer way.
    /// </summary>
    /// <param name="card">What to draw.</param>
    /// <param name="dpi">Pixels per inch, 150 to 2400; 600 is what the card is made for (a bit of the smallest usual marker is then about 5 pixels).</param>
    /// <exception cref="ArgumentOutOfRangeException">The resolution is out of range.</exception>
    public static byte[] ToPng(CardDescription card, int dpi = 600)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentOutOfRangeException.ThrowIfLessThan(dpi, 150);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(dpi, 2400);
        return PngCard.Draw(CardArtwork.Of(card), dpi);
    }
}
