using System.Collections.Immutable;
using EdgeLens.Cards.Fonts;
using EdgeLens.Cards.Sheets;
using EdgeLens.Imaging.Tags;
using SkiaSharp;

namespace EdgeLens.Cards.Tags;

/// <summary>A sheet of tags to print at true size and cut along its lines.</summary>
/// <param name="paper">Which.</param>
internal sealed class TagSheet(PaperSize paper)
{
    private const double HeadMm = 24, TextMm = 3, NumberMm = 2.6, NameMm = 2.2, GapMm = 6, LineMm = 0.1;

    /// <summary>Strips that lie side by side.</summary>
    private int Columns => (int)((paper.WidthMm - 2 * PaperSize.MarginMm + GapMm) / (TagDesign.StripLengthMm + GapMm));

    private int Rows => (int)((paper.HeightMm - 2 * PaperSize.MarginMm - HeadMm) / TagDesign.StripHeightMm);

    /// <summary>Tags on one sheet.</summary>
    internal int Room => Columns * Rows;

    /// <summary>Draws one sheet.</summary>
    /// <param name="canvas">Borrowed; one unit is one millimetre.</param>
    /// <param name="tags">At most <see cref="Room"/>.</param>
    internal void Draw(SKCanvas canvas, ImmutableArray<TagLabel> tags)
    {
        SheetPen pen = new(canvas);
        double left = PaperSize.MarginMm, width = paper.WidthMm - 2 * left;
        double y = pen.Write("EdgeLens tags", left, left, width, 5, bold: true);
        pen.Write("Print at 100 % (\"actual size\"), 600 dpi or better, on matt white paper; a strip is 40 mm long. Cut along the lines. Lay the strip flat on the card beside the window, " +
            "its square in the picture, its name outside (docs/photographing.md). Working ends are sharps: put the tag down before you take up the instrument.", left, y, width, TextMm);
        double top = left + HeadMm;
        for (int i = 0; i < tags.Length; i++)
        {
            double x = left + i / Rows * (TagDesign.StripLengthMm + GapMm), row = top + i % Rows * TagDesign.StripHeightMm;
            Strip(canvas, pen, tags[i], x, row);
        }
    }

    private static void Strip(SKCanvas canvas, SheetPen pen, TagLabel tag, double x, double y)
    {
        using SKPaint ink = new() { IsAntialias = true, Color = SKColors.Black };
        using SKPathBuilder builder = new();
        // One path: a light hairline would stay between rectangles that are filled one after the other.
        foreach ((double left, double top, double width, double height) in tag.Black()) builder.AddRect(new((float)(x + left), (float)(y + top), (float)(x + left + width), (float)(y + top + height)));
        using SKPath black = builder.Detach();
        canvas.DrawPath(black, ink);
        double after = TagDesign.StripHeightMm + 0.4;
        using SKFont number = CardFonts.Of(NumberMm, bold: true);
        using SKFont name = CardFonts.Of(NameMm);
        Text(tag.Number.ToString(System.Globalization.CultureInfo.InvariantCulture), x + after, number);
        // The name begins where the picture has ended.
        double from = x + 16, room = TagDesign.StripLengthMm - 16.5;
        using SKFont fitted = CardFonts.Of(NameMm * Math.Min(1, room / Math.Max(1e-6, name.MeasureText(tag.Name))));
        Text(tag.Name, from, fitted);
        // Cut lines: on the outside of each strip, hair thin, so that what stays of one is less than a bit.
        pen.Line(x, y, x + TagDesign.StripLengthMm, y, LineMm);
        pen.Line(x, y + TagDesign.StripHeightMm, x + TagDesign.StripLengthMm, y + TagDesign.StripHeightMm, LineMm);
        pen.Line(x, y, x, y + TagDesign.StripHeightMm, LineMm);
        pen.Line(x + TagDesign.StripLengthMm, y, x + TagDesign.StripLengthMm, y + TagDesign.StripHeightMm, LineMm);

        void Text(string words, double atX, SKFont font) => canvas.DrawText(words, (float)atX, (float)(y + TagDesign.StripHeightMm / 2 + font.Metrics.CapHeight / 2), SKTextAlign.Left, font, ink);
    }
}
