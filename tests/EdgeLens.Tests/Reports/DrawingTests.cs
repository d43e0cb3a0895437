using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using EdgeLens.Reports;
using EdgeLens.Reports.Html;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.Reports;

/// <summary>What the drawings show is read back from them with a ruler: the page's own grid and axes.</summary>
public sealed class DrawingTests
{
    [Theory]
    [InlineData(30)]
    [InlineData(60)]
    [InlineData(120)]
    public void Losses_are_as_many_times_larger_as_the_words_say(double lossUm)
    {
        // The same loss everywhere, so the two sides stay parallel: 1.5 µm of made noise times the magnification is far below the tolerance.
        XElement page = Page((SyntheticCases.Sharp with { LossUm = (_, _) => lossUm }).Inspect());
        XElement[] drawings = [.. Section(page, "Its shape, today against new").Descendants("figure")];

        Assert.Equal(lossUm, GapUm(drawings[0]), 3.0);
        double times = double.Parse(Regex.Match(drawings[1].Element("figcaption")!.Value, @"Losses ([\d.]+) times larger").Groups[1].Value, CultureInfo.InvariantCulture);
        Assert.True(times > 1);
        Assert.Equal(times * lossUm, GapUm(drawings[1]), 4 * times);
    }

    [Fact]
    public void The_outline_lies_on_the_picture_half_a_pixel_from_the_centres_that_it_was_given()
    {
        Inspection inspection = SyntheticCases.Sharp.Inspect(withBaseline: false);
        ReportPhotograph photograph = SyntheticPhotograph.Of(inspection);

        string path = Page(inspection).Descendants("path").First(p => (string?)p.Attribute("class") == "outline").Attribute("d")!.Value;

        PixelPoint first = photograph.OutlinePx[0];
        Vector2 drawn = Points(path)[0];
        Assert.Equal(first.X + 0.5, drawn.X, Tolerance);
        Assert.Equal(first.Y + 0.5, drawn.Y, Tolerance);
    }

    [Fact]
    public void Edges_are_marked_by_what_was_lost_where_it_was_lost()
    {
        // 70 µm off the right edge beyond 1 mm from the toe, nothing elsewhere.
        Inspection inspection = (SyntheticCases.Sharp with { LossUm = (part, s) => part == EdgePart.Right && s > 1 ? 70 : 0 }).Inspect();
        XElement[] bands = [.. Page(inspection).Descendants("path").Where(p => ((string?)p.Attribute("class"))?.StartsWith("band ", StringComparison.Ordinal) == true && p.Parent!.Attribute("class")?.Value == "picture")];

        ReportPhotograph photograph = SyntheticPhotograph.Of(inspection);
        double middleY = photograph.HeightPx / 2.0, oneMmFromToeX = photograph.OutlinePx.Max(p => p.X) - 1 / photograph.MmPerPx!.Value;
        XElement marked = Assert.Single(bands, b => b.Attribute("class")!.Value == "band marked");
        Assert.All(Points(marked.Attribute("d")!.Value), p => Assert.True(p.Y > middleY)); // the right edge is the lower one in this picture
        Assert.DoesNotContain(bands, b => b.Attribute("class")!.Value == "band heavy");
        Assert.All(bands.Where(b => b.Attribute("class")!.Value == "band calm").SelectMany(b => Points(b.Attribute("d")!.Value)).Where(p => p.Y > middleY + 40), p => Assert.True(p.X > oneMmFromToeX - 2)); // the rest of it
    }

    [Fact]
    public void Lines_on_the_photograph_differ_by_width_or_dash_and_words_and_not_by_colour_alone()
    {
        XElement page = Page(SyntheticCases.DullAndNicked.Inspect(withBaseline: false));
        string style = page.Descendants("style").Single().Value;
        string[] strokes = [.. Regex.Matches(style, @"\.band\.\w+ \{([^}]*)\}").Select(m => string.Join(';', m.Groups[1].Value.Split(';').Where(d => d.Contains("stroke-width", StringComparison.Ordinal) || d.Contains("dash", StringComparison.Ordinal))))];

        Assert.Equal(5, strokes.Length);
        Assert.Equal(strokes.Distinct(), strokes);

        string[] drawn = [.. page.Descendants("svg").Single(s => s.Attribute("class")?.Value == "picture").Descendants("path").Attributes("class").Select(a => a.Value).Where(c => c.StartsWith("band ", StringComparison.Ordinal)).Distinct().Order(StringComparer.Ordinal)];
        XElement[] legend = [.. page.Descendants("ul").Single(u => u.Attribute("class")?.Value == "legend").Elements("li")];
        Assert.Contains(drawn, c => c == "band heavy");
        Assert.Equal(drawn, legend.Select(l => l.Descendants("path").Single().Attribute("class")!.Value).Order(StringComparer.Ordinal));
        Assert.All(legend, l => Assert.True(l.Value.Trim().Length > 5));
    }

    [Fact]
    public void A_strip_shows_the_sharp_limit_at_its_height()
    {
        XElement strip = Section(Page(SyntheticCases.DullAndNicked.Inspect()), "Along the edge").Descendants("svg").First();
        (double Y, double Value)[] ticks =
        [
            .. strip.Elements("text").Where(t => t.Attribute("class")!.Value == "tick end").Select(t => (double.Parse(t.Attribute("y")!.Value, CultureInfo.InvariantCulture) - 3.5, double.Parse(t.Value.Replace('−', '-'), CultureInfo.InvariantCulture))),
        ];
        double pxPerUm = (ticks[^1].Y - ticks[0].Y) / (ticks[^1].Value - ticks[0].Value);

        double limitY = double.Parse(strip.Elements("line").First(l => l.Attribute("class")!.Value == "limit").Attribute("y1")!.Value, CultureInfo.InvariantCulture);

        // A line of 4 µm, in the made light a third of the radius.
        Assert.Equal(12, ticks[0].Value + (limitY - ticks[0].Y) / pxPerUm, 0.1);
        Assert.Contains(strip.Elements("text"), t => t.Value == "sharp below 12 µm");
    }

    private const double Tolerance = 0.006; // coordinates are rounded to a hundredth

    private static XElement Page(Inspection inspection) => InspectionReportTests.Parse(InspectionReport.ToHtml(inspection, SyntheticPhotograph.Of(inspection), ReportCases.Context));

    private static XElement Section(XElement page, string title) => page.Descendants("section").Single(s => s.Element("h2")?.Value == title);

    /// <summary>Mean distance of the lines "as-new" and "today" half way along the blade, measured with the 1 mm grid.</summary>
    private static double GapUm(XElement figure)
    {
        XElement svg = figure.Element("svg")!;
        double[] grid = [.. svg.Elements("line").Where(l => l.Attribute("x1")!.Value == l.Attribute("x2")!.Value).Select(l => double.Parse(l.Attribute("x1")!.Value, CultureInfo.InvariantCulture)).Order()];
        double pxPerMm = grid[1] - grid[0], from = grid[1], to = grid[3];
        double MeanY(string line)
        {
            // The upper side only: the right edge, which is the second half of the path.
            Vector2[] points = Points(svg.Elements("path").Single(p => p.Attribute("class")!.Value == line).Attribute("d")!.Value);
            double[] upper = [.. points.Skip(points.Length / 2).Where(p => p.X > from && p.X < to).Select(p => p.Y)];
            return upper.Average();
        }
        return (MeanY("today") - MeanY("as-new")) / pxPerMm * 1000;
    }

    private static Vector2[] Points(string path) =>
        [.. Regex.Matches(path, @"[ML](-?[\d.]+) (-?[\d.]+)").Select(m => new Vector2(double.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture), double.Parse(m.Groups[2].Value, CultureInfo.InvariantCulture)))];
}
