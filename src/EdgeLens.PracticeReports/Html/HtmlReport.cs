using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Xml.Linq;
using EdgeLens.PracticeReports.Content;
using EdgeLens.PracticeReports.Plotting;
using EdgeLens.Reports;
using EdgeLens.Reports.Html;
using EdgeLens.Reports.Html.Sections;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.PracticeReports.Html;

/// <summary>A report as one HTML file that asks the network for nothing, in the style of the single inspection's.</summary>
public static class HtmlReport
{
    private static readonly Lazy<string> Style = new(() =>
    {
        using StreamReader reader = new(typeof(HtmlReport).Assembly.GetManifestResourceStream("practice.css")!);
        return reader.ReadToEnd();
    });

    /// <summary>The page; the same text for the same report.</summary>
    public static string Write(PracticeReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        ReportAbout about = report.About;
        return InspectionReport.Page($"{report.Title} - {about.PracticeName}",
            El("style", Style.Value),
            El("main",
                El("header",
                    El("p.over", El("span", about.Day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)), El("span", UserText(about.PracticeName))),
                    El("h1", UserText(report.Title)),
                    El("p.facts", report.Facts.Select(f => El("span", f))),
                    about.IsDemo ? El("p.demo", ReportAbout.DemoNotice) : null),
                Sections(report.Blocks),
                El("section", El("footer", El("span", $"EdgeLens {about.ProgramVersion}"), about.IsDemo ? El("span", "demonstration") : null))));
    }

    /// <summary>A heading and what follows it, up to the next, is a section.</summary>
    private static IEnumerable<XElement> Sections(ImmutableArray<Block> blocks)
    {
        XElement section = El("section");
        foreach (Block block in blocks)
        {
            if (block is Heading heading)
            {
                if (section.HasElements) yield return section;
                section = El(heading.StartsPage ? "section.new-page" : "section", El("h2", heading.Text));
            }
            else section.Add(Content(block));
        }
        if (section.HasElements) yield return section;
    }

    private static XElement Content(Block block) => block switch
    {
        Paragraph p => El(p.IsRemark ? "p.remark" : "p", p.Text),
        Bullets b => El("ul", b.Items.Select(i => El("li", i))),
        VerdictBlock v => El("div.verdict " + VerdictNames.Of(v.Kind),
            El("h2", VerdictSection.Sign(v.Kind), El("span", v.Headline)),
            El("div.columns",
                El("div", El("h3", "Why"), El("ul", v.Reasons.Select(r => El("li", r)))),
                El("div", El("h3", "What next"), El("ol", v.NextSteps.Select(s => El("li", s)))))),
        Table t => El("table.paper-table",
            El("thead", El("tr", t.Columns.Select(c => El(c.IsNumber ? "th.number" : "th", Attr("style", string.Create(CultureInfo.InvariantCulture, $"width:{100 * c.Share / t.Columns.Sum(k => k.Share):0.#}%")), c.Title)))),
            El("tbody", t.Rows.Select(row => El("tr", row.Select((cell, i) => El(t.Columns[i].IsNumber ? "td.number" : "td", InCell(cell))))))),
        PlotBlock p => El("figure.trend",
            El("img", Attr("alt", p.Caption), Attr("src", "data:image/svg+xml;base64," + Convert.ToBase64String(Encoding.UTF8.GetBytes(TrendDrawing.ToSvg(p.Plot))))), El("figcaption", p.Caption)),
        PictureRow r => El("div.pair", r.Pictures.Select(p =>
            El("figure", El("img", Attr("alt", p.Caption), Attr("src", EmbeddedJpeg.Href(p.Jpeg))), El("figcaption", p.Caption)))),
        _ => throw new ArgumentException($"HTML has no form for {block.GetType().Name}.", nameof(block)),
    };

    private static IEnumerable<object?> InCell(Cell cell)
    {
        if (cell.Sign is { } sign) yield return El("span." + VerdictNames.Of(sign), Attr("style", "color:var(--tone)"), VerdictSection.Sign(sign));
        if (cell.TickBoxes > 0)
        {
            foreach (string line in cell.Text.Split('\n')) yield return El("div", El("span.tick"), line);
        }
        else yield return UserText(cell.Text);
        if (cell.Small is { } small) foreach (string line in small.Split('\n')) yield return El("small", line);
    }
}
