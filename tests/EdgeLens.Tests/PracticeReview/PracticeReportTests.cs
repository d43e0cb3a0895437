using System.Xml.Linq;
using EdgeLens.Assessment.Policies;
using EdgeLens.PracticeReports.Content;
using EdgeLens.PracticeReports.Html;
using EdgeLens.PracticeReports.Pdf;
using EdgeLens.PracticeReports.Reports;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Sharpening;
using EdgeLens.Tests.RecordBooks;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using Xunit;

namespace EdgeLens.Tests.PracticeReview;

/// <summary>Reports as files, read back by PdfPig and as XML.</summary>
public sealed class PracticeReportTests
{
    private const double PointsPerMm = 72 / 25.4;

    [Theory]
    [InlineData("a4", 210, 297)] // ISO 216
    [InlineData("letter", 215.9, 279.4)] // ANSI/ASME Y14.1, 8.5 x 11 in
    public void Pages_have_the_paper_s_size_and_say_how_many_there_are(string paper, double widthMm, double heightMm)
    {
        using PdfDocument pdf = Read(Long(), paper == "a4" ? Paper.A4 : Paper.Letter);
        Assert.True(pdf.NumberOfPages > 1);
        foreach (Page page in pdf.GetPages())
        {
            Assert.Equal(widthMm, page.Width / PointsPerMm, 0.01);
            Assert.Equal(heightMm, page.Height / PointsPerMm, 0.01);
            Assert.Contains($"page {page.Number} of {pdf.NumberOfPages}", Text(page), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_table_repeats_its_head_on_every_page_and_breaks_no_row()
    {
        using PdfDocument pdf = Read(Long(), Paper.A4);
        foreach (Page page in pdf.GetPages().Where(p => Text(p).Contains("first line", StringComparison.Ordinal)))
        {
            string text = Text(page);
            Assert.Contains("Column", text, StringComparison.Ordinal);
            Assert.Equal(Count(text, "first line"), Count(text, "last line"));
        }
        Assert.Equal(80, pdf.GetPages().Sum(p => Count(Text(p), "first line")));
    }

    [Fact]
    public void Nothing_is_set_outside_the_margins()
    {
        using PdfDocument pdf = Read(Long(), Paper.A4);
        foreach (Page page in pdf.GetPages())
            foreach (Word word in page.GetWords())
            {
                Assert.InRange(word.BoundingBox.Left / PointsPerMm, 15.5, 194);
                Assert.InRange(word.BoundingBox.Right / PointsPerMm, 16, 194.5);
                Assert.InRange(word.BoundingBox.Bottom / PointsPerMm, 5, 282);
            }
    }

    [Fact]
    public void An_instrument_report_has_its_history_its_plot_s_words_and_the_embedded_font()
    {
        using TestBook test = Worn();
        PracticeReport report = InstrumentReport.Build(Source(test), "C-07", withUncertainty: true);
        using PdfDocument pdf = Read(report, Paper.A4);
        string text = string.Join('\n', pdf.GetPages().Select(Text));
        foreach (string expected in (string[])["C-07", "Keep", "retire 20 %", "watch 10 %", "sharpened", "by AB", "not measured", "MK: agrees. as I see it", "Annex"]) Assert.Contains(expected, text, StringComparison.Ordinal);
        Assert.All(pdf.GetPages().SelectMany(p => p.Letters).Select(l => l.FontName).Distinct(), font => Assert.Contains("DejaVuSans", font, StringComparison.Ordinal));
    }

    [Fact]
    public void The_HTML_is_well_formed_asks_the_network_for_nothing_and_encodes_what_users_wrote()
    {
        using TestBook test = Worn();
        string html = HtmlReport.Write(InstrumentReport.Build(Source(test), "C-07"));
        XElement page = XElement.Parse(html[html.IndexOf("<html", StringComparison.Ordinal)..]);
        Assert.Contains("<b>note & all</b>", page.Value, StringComparison.Ordinal);
        Assert.DoesNotContain(page.Descendants().Attributes(), a => a.Name == "src" && !a.Value.StartsWith("data:", StringComparison.Ordinal));
        Assert.Equal(2, page.Descendants("img").Count()); // two measures with limits, no photographs
        Assert.All(page.Descendants("img"), img => Assert.False(string.IsNullOrWhiteSpace(img.Attribute("alt")?.Value)));
    }

    [Fact]
    public void Every_verdict_in_a_table_has_its_sign_and_its_words()
    {
        using TestBook test = Worn();
        string html = HtmlReport.Write(ReviewReport.OfPractice(Source(test)));
        XElement page = XElement.Parse(html[html.IndexOf("<html", StringComparison.Ordinal)..]);
        XElement[] rows = [.. page.Descendants("table").Where(t => t.Descendants("th").First().Value == "What").SelectMany(t => t.Element("tbody")!.Elements("tr"))];
        Assert.NotEmpty(rows);
        Assert.All(rows, row => Assert.Single(row.Elements("td").First().Descendants("svg")));
        Assert.All(rows, row => Assert.NotEqual("", row.Elements("td").First().Value));
    }

    [Fact]
    public void The_work_list_has_boxes_to_tick_and_a_demonstration_says_so_on_every_page()
    {
        using TestBook test = new TestBook(Server.Sqlite).WithCurette();
        Records.Practices.Practice practice = test.Book.Current<Records.Practices.Practice>()[0];
        test.Book.Append(practice with { IsDemo = true, Corrects = practice.Id, CorrectionReason = "test" });
        NewInspection dull = TestBook.Inspection("C-07", new(2026, 2, 1), 5);
        test.Book.Append(dull with { Entry = dull.Entry with { Verdict = Assessment.Decision.VerdictKind.Resharpen, Headline = "Resharpen both edges" } });
        PracticeReport report = WorkListReport.Build(Source(test));
        using PdfDocument pdf = Read(report, Paper.A4);
        Assert.All(pdf.GetPages(), p => Assert.Contains("demonstration", Text(p), StringComparison.Ordinal));
        Assert.Equal(3, HtmlReport.Write(report).Split("class=\"tick\"").Length - 1);
        Assert.Contains("invented", Text(pdf.GetPage(1)), StringComparison.Ordinal);
    }

    private static ReportSource Source(TestBook test) => new(test.Book, Policy.Default, new(2026, 3, 1), "9.9.9");

    private static TestBook Worn()
    {
        TestBook test = new TestBook(Server.Sqlite).WithCurette();
        NewInspection asNew = TestBook.Inspection("C-07", new(2025, 1, 10), 0);
        test.Book.Append(asNew with { Entry = asNew.Entry with { IsAsNew = true } });
        InspectionEntry last = null!;
        for (int i = 1; i <= 4; i++)
        {
            NewInspection next = TestBook.Inspection("C-07", new(2025, 1 + 2 * i, 10), 3 * i);
            last = test.Book.Append(next with
            {
                Entry = next.Entry with { Note = "<b>note & all</b>" },
                Figures = [.. next.Figures, FigureRow.Of(InspectionFigures.LengthLossMm, "mm", new Geometry.Figures.Measured(0.05 * i, 0.02), shared: 0.01) with { Position = 2 }],
            });
            test.Book.Append(new SharpeningRow { By = "AB", SharpenedBy = "AB", Instrument = "C-07", End = 1, Day = new(2025, 2 * i, 10) });
        }
        test.Book.Append(new SignOff { By = "MK", InspectionId = last.Id, Agrees = true, Comment = "as I see it" });
        return test;
    }

    private static PracticeReport Long() => new("A long report", ["fact"],
    [
        new Heading("Rows"),
        new Table([new("Column", 1), new("Other", 1, IsNumber: true)], [.. Enumerable.Range(0, 80).Select(i => (System.Collections.Immutable.ImmutableArray<Cell>)[new Cell("first line", "some words between that take a line of their own\nlast line"), $"{i}"])]),
    ], new("Practice", "9.9.9", new(2026, 3, 1), false));

    private static PdfDocument Read(PracticeReport report, Paper paper)
    {
        using MemoryStream stream = new();
        PdfReport.Write(stream, report, paper);
        return PdfDocument.Open(stream.ToArray());
    }

    private static string Text(Page page) => string.Join(' ', page.GetWords().Select(w => w.Text));

    private static int Count(string text, string part) => text.Split(part).Length - 1;
}
