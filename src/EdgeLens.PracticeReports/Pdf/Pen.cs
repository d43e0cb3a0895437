using System.Xml.Linq;
using EdgeLens.Assessment.Decision;
using EdgeLens.PracticeReports.Fonts;
using EdgeLens.Reports.Html.Sections;
using SkiaSharp;

namespace EdgeLens.PracticeReports.Pdf;

/// <summary>Draws words, lines and signs in millimetres.</summary>
internal static class Pen
{
    public static readonly SKColor Ink = SKColor.Parse("#1b2430"), Soft = SKColor.Parse("#55606e"), Grey = SKColor.Parse("#b9b5aa"), Sheet = SKColor.Parse("#f4f1ea");

    /// <summary>The colours of the HTML report; each verdict has its sign too.</summary>
    public static SKColor Tone(VerdictKind kind) => SKColor.Parse(kind switch
    {
        VerdictKind.Keep => "#0d5c63",
        VerdictKind.TouchUp => "#8a6100",
        VerdictKind.Resharpen => "#a8461c",
        VerdictKind.Retire => "#6d2154",
        _ => "#42526b",
    });

    /// <summary>Writes one line.</summary>
    /// <param name="canvas">In mm.</param>
    /// <param name="x">Left end, or right end when flush right.</param>
    /// <param name="baseline">Of the letters.</param>
    /// <param name="text">One line.</param>
    /// <param name="sizeMm">Em size.</param>
    /// <param name="bold">For headings.</param>
    /// <param name="color">Of the letters.</param>
    /// <param name="flushRight">True to end at <paramref name="x"/>.</param>
    public static void Text(SKCanvas canvas, double x, double baseline, string text, double sizeMm, bool bold, SKColor color, bool flushRight = false)
    {
        using SKFont font = ReportFonts.Of(sizeMm, bold);
        using SKPaint paint = new() { Color = color, IsAntialias = true };
        canvas.DrawText(text, (float)x, (float)baseline, flushRight ? SKTextAlign.Right : SKTextAlign.Left, font, paint);
    }

    public static void Line(SKCanvas canvas, double x1, double y1, double x2, double y2, SKColor color, double widthMm)
    {
        using SKPaint paint = new() { Color = color, StrokeWidth = (float)widthMm, IsAntialias = true };
        canvas.DrawLine((float)x1, (float)y1, (float)x2, (float)y2, paint);
    }

    public static void Box(SKCanvas canvas, double x, double y, double width, double height, SKColor color, double strokeMm = 0)
    {
        using SKPaint paint = new() { Color = color, IsStroke = strokeMm > 0, StrokeWidth = (float)strokeMm, IsAntialias = true };
        canvas.DrawRect((float)x, (float)y, (float)width, (float)height, paint);
    }

    /// <summary>The verdict's sign as in the HTML report, in a square.</summary>
    public static void Sign(SKCanvas canvas, VerdictKind kind, double x, double y, double sizeMm)
    {
        XElement svg = VerdictSection.Sign(kind);
        using SKPath path = SKPath.ParseSvgPathData(svg.Element("path")!.Attribute("d")!.Value);
        using SKPaint paint = new() { Color = Tone(kind), IsStroke = true, StrokeWidth = 4, StrokeCap = SKStrokeCap.Round, StrokeJoin = SKStrokeJoin.Round, IsAntialias = true };
        canvas.Save();
        canvas.Translate((float)x, (float)y);
        canvas.Scale((float)(sizeMm / 48));
        canvas.DrawPath(path, paint);
        canvas.Restore();
    }

    /// <summary>Breaks words into lines; a word that is too long is broken where it must.</summary>
    public static string[] Wrap(string text, double widthMm, double sizeMm, bool bold = false)
    {
        using SKFont font = ReportFonts.Of(sizeMm, bold);
        List<string> lines = [];
        foreach (string paragraph in text.Split('\n'))
        {
            string line = "";
            foreach (string word in paragraph.Split(' ', StringSplitOptions.RemoveEmptyEntries))
            {
                string longer = line.Length == 0 ? word : line + " " + word;
                if (font.MeasureText(longer) <= widthMm)
                {
                    line = longer;
                    continue;
                }
                if (line.Length > 0) lines.Add(line);
                line = word;
                while (line.Length > 1 && font.MeasureText(line) > widthMm)
                {
                    int fits = Math.Max(1, Enumerable.Range(1, line.Length).TakeWhile(n => font.MeasureText(line[..n]) <= widthMm).LastOrDefault());
                    lines.Add(line[..fits]);
                    line = line[fits..];
                }
            }
            lines.Add(line);
        }
        return [.. lines];
    }
}
