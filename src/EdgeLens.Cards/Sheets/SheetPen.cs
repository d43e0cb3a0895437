using EdgeLens.Cards.Fonts;
using SkiaSharp;

namespace EdgeLens.Cards.Sheets;

/// <summary>Words and lines on a page whose unit is the millimetre.</summary>
/// <param name="canvas">Borrowed.</param>
internal sealed class SheetPen(SKCanvas canvas)
{
    private const double LineSpacing = 1.4;

    /// <summary>Writes text from a place rightwards, wrapped to a width.</summary>
    /// <param name="text">One paragraph.</param>
    /// <param name="xMm">Left end.</param>
    /// <param name="yMm">Upper end of the first line.</param>
    /// <param name="widthMm">Room for a line.</param>
    /// <param name="sizeMm">Em size.</param>
    /// <param name="bold">True for headings.</param>
    /// <returns>Where the next line would begin.</returns>
    internal double Write(string text, double xMm, double yMm, double widthMm, double sizeMm, bool bold = false)
    {
        using SKFont font = CardFonts.Of(sizeMm, bold);
        using SKPaint ink = new() { IsAntialias = true, Color = SKColors.Black };
        string line = "";
        foreach (string word in text.Split(' '))
        {
            string longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && font.MeasureText(longer) > widthMm)
            {
                Put(line);
                longer = word;
            }

            line = longer;
        }

        Put(line);
        return yMm;

        void Put(string words)
        {
            canvas.DrawText(words, (float)xMm, (float)(yMm + sizeMm), SKTextAlign.Left, font, ink);
            yMm += LineSpacing * sizeMm;
        }
    }

    /// <summary>A straight stroke.</summary>
    internal void Line(double x0Mm, double y0Mm, double x1Mm, double y1Mm, double thicknessMm = 0.15)
    {
        using SKPaint stroke = Stroke(thicknessMm);
        canvas.DrawLine((float)x0Mm, (float)y0Mm, (float)x1Mm, (float)y1Mm, stroke);
    }

    /// <summary>A rectangle, filled with a tone (0 black to 255 white) and outlined when a thickness is given.</summary>
    internal void Box(double xMm, double yMm, double widthMm, double heightMm, byte? tone, double outlineMm = 0)
    {
        if (tone is { } t)
        {
            using SKPaint fill = new() { IsAntialias = true, Color = new(t, t, t) };
            canvas.DrawRect((float)xMm, (float)yMm, (float)widthMm, (float)heightMm, fill);
        }

        if (outlineMm <= 0) return;
        using SKPaint stroke = Stroke(outlineMm);
        canvas.DrawRect((float)xMm, (float)yMm, (float)widthMm, (float)heightMm, stroke);
    }

    /// <summary>A closed shape, filled with a tone and outlined.</summary>
    internal void Shape(byte tone, double outlineMm, params ReadOnlySpan<(double XMm, double YMm)> corners)
    {
        using SKPathBuilder builder = new();
        SKPoint[] points = new SKPoint[corners.Length];
        for (int i = 0; i < points.Length; i++) points[i] = new((float)corners[i].XMm, (float)corners[i].YMm);
        builder.AddPoly(points, close: true);
        using SKPath path = builder.Detach();
        using SKPaint fill = new() { IsAntialias = true, Color = new(tone, tone, tone) };
        canvas.DrawPath(path, fill);
        using SKPaint stroke = Stroke(outlineMm);
        canvas.DrawPath(path, stroke);
    }

    /// <summary>A double arrow between two places on a level.</summary>
    internal void Span(double x0Mm, double x1Mm, double yMm)
    {
        const double Head = 1.2;
        Line(x0Mm, yMm, x1Mm, yMm);
        foreach ((double tip, double inward) in ((double, double)[])[(x0Mm, Head), (x1Mm, -Head)])
        {
            Line(tip, yMm, tip + inward, yMm - Head / 3);
            Line(tip, yMm, tip + inward, yMm + Head / 3);
        }
    }

    private static SKPaint Stroke(double thicknessMm) => new() { IsAntialias = true, IsStroke = true, StrokeWidth = (float)thicknessMm, Color = SKColors.Black };
}
