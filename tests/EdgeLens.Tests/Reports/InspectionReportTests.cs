using System.Text.RegularExpressions;
using System.Xml.Linq;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Geometry.Figures;
using EdgeLens.Reports;
using EdgeLens.Reports.Html;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.Reports;

public sealed partial class InspectionReportTests
{
    [Theory]
    [MemberData(nameof(ReportCases.Names), MemberType = typeof(ReportCases))]
    public void Every_kind_of_report_is_well_formed_and_says_its_verdict(string name)
    {
        Inspection inspection = ReportCases.ByName[name].Value;

        string html = ReportCases.Html(name);
        XElement page = Parse(html);

        Assert.StartsWith("<!DOCTYPE html>", html, StringComparison.Ordinal);
        Assert.Equal(inspection.Verdict.Headline, page.Descendants("section").First().Element("h2")!.Value);
        Assert.All(inspection.Verdict.Reasons, r => Assert.Contains(page.Descendants("li"), li => li.Value == r.Words));
        Assert.All(inspection.Verdict.NextSteps, s => Assert.Contains(page.Descendants("li"), li => li.Value == s));
        Assert.All(inspection.Verdict.Remarks, r => Assert.Contains(r, page.Value, StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(ReportCases.Names), MemberType = typeof(ReportCases))]
    public void A_report_asks_the_network_for_nothing_and_runs_nothing(string name)
    {
        string html = ReportCases.Html(name);
        XElement page = Parse(html);

        Assert.DoesNotContain("http", html.Replace("http-equiv", "", StringComparison.Ordinal), StringComparison.OrdinalIgnoreCase);
        Assert.All(page.Descendants().Attributes().Where(a => a.Name.LocalName is "href" or "src"), a => Assert.StartsWith("data:image/jpeg;base64,", a.Value, StringComparison.Ordinal));
        Assert.Empty(page.Descendants("script"));
        Assert.DoesNotContain("@import", html, StringComparison.Ordinal);
    }

    [Fact]
    public void Browsers_see_the_same_tree_as_XML_does()
    {
        Inspection inspection = SyntheticCases.DullAndNicked.Inspect();
        string html = Html(inspection with { Verdict = inspection.Verdict with { Reasons = [], NextSteps = [] } });

        Assert.DoesNotMatch(ClosedByItself(), html);
        Assert.DoesNotMatch("[<>&]", Parse(html).Descendants("style").Single().Value);
        string[] ids = [.. Parse(html).Descendants().Attributes("id").Select(a => a.Value)];
        Assert.Equal(ids.Distinct(), ids);
        Assert.All(Regex.Matches(html, @"url\(#(\w+)\)"), m => Assert.Contains(m.Groups[1].Value, ids));
    }

    [Fact]
    public void Hostile_text_is_shown_and_never_obeyed()
    {
        const string Hostile = "</title></style><script>alert(1)</script><img src=x onerror=alert(1)>\"'><svg onload=alert(1)>&lt;\u0000\u0007\u202E\uD83D";
        Inspection inspection = SyntheticCases.DullAndNicked.Inspect(id: Hostile, note: Hostile);
        Figure missing = Figure.Missing(Hostile);
        inspection = inspection with
        {
            Today = inspection.Today! with { Photograph = inspection.Today.Photograph with { FileName = Hostile }, ToeRadiusUm = missing, Light = inspection.Today.Light with { ReferenceDescription = Hostile } },
            Verdict = inspection.Verdict with { PolicyName = Hostile, Remarks = [Hostile] },
            Refusals = [new(RefusedSubject.Comparison, Hostile, new(Hostile, Hostile, Hostile, 1, 2, Hostile))],
        };

        string html = InspectionReport.ToHtml(inspection, ReportCases.Photograph(inspection), new(Hostile, Hostile));
        XElement page = Parse(html);

        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<img", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain(page.Descendants().Attributes(), a => a.Name.LocalName.StartsWith("on", StringComparison.OrdinalIgnoreCase));
        string shown = Hostile.Replace('\u0000', '\uFFFD').Replace('\u0007', '\uFFFD').Replace('\uD83D', '\uFFFD');
        Assert.Equal(shown, page.Descendants("h1").Single().Element("bdi")!.Value);
        Assert.True(Regex.Count(page.Value, Regex.Escape(shown)) >= 12);
    }

    [Fact]
    public void Every_figure_stands_in_the_table_with_uncertainty_limit_and_state()
    {
        XElement page = Parse(Html(SyntheticCases.DullAndNicked.Inspect()));
        string[] rows = [.. page.Descendants("table").First().Descendants("tr").Select(r => string.Join(" | ", r.Elements().Select(c => c.Value)))];

        Assert.Contains("Depth of nick right edge, 2.10 mm from the toe | 62.0 ± 8.0 µm | – | touch-up above 20 µm: ▲ outsideresharpen above 30 µm: ▲ outside", rows);
        Assert.Contains(rows, r => Regex.IsMatch(r, @"^Greatest width loss 2\.00 mm from the toe \| 14\.[345] ± 1\.0 %") && r.Contains("watch above 10 %: ▲ outside", StringComparison.Ordinal) && r.Contains("retire above 20 %: ● inside", StringComparison.Ordinal));
        Assert.Contains("Radius of the toe | 419 ± 12 µm | 419 ± 12 µm | –", rows);
        Assert.Contains(rows, r => r.StartsWith("Reflecting fraction toe | not measured: no panel stands where this part of the edge would mirror it", StringComparison.Ordinal));
    }

    [Fact]
    public void A_refused_photograph_gives_a_report_with_code_figure_limit_and_advice()
    {
        string text = Parse(Html(ReportCases.Refused())).Value;

        Assert.All(new[] { "Take another photograph", "out-of-focus", "IMG_0412.jpg", "41.25 µm", "25 µm", ReportCases.OutOfFocus.Advice, "end 2", "EdgeLens 0.1.0" }, fact => Assert.Contains(fact, text, StringComparison.Ordinal));
    }

    [Fact]
    public void A_refused_photograph_is_shown_without_outline_and_without_a_scale_that_nobody_knows()
    {
        ReportPhotograph picture = new(SyntheticPhotograph.Of(SyntheticCases.Sharp.Inspect()).Jpeg, 400, 300, [], null);

        XElement page = Parse(InspectionReport.ToHtml(ReportCases.Refused(), picture, ReportCases.Context));

        XElement drawn = Assert.Single(page.Descendants("svg"), s => s.Attribute("class")?.Value == "picture");
        Assert.Equal("image", Assert.Single(drawn.Elements()).Name.LocalName);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Rendered_photographs_are_called_rendered_and_others_are_not(bool isRendered)
    {
        Inspection inspection = SyntheticCases.Sharp.Inspect();

        string text = Parse(InspectionReport.ToHtml(inspection, ReportCases.Photograph(inspection), new("0.1.0", null, isRendered))).Value;

        Assert.Equal(isRendered, text.Contains("rendered", StringComparison.OrdinalIgnoreCase));
    }

    [Theory]
    [MemberData(nameof(ReportCases.Names), MemberType = typeof(ReportCases))]
    public void Every_report_carries_the_cautions_the_version_and_the_policy(string name)
    {
        string text = Parse(ReportCases.Html(name)).Value;

        Assert.All(new[] { "sharps", "sterilise", "eye protection", "instructions", "local rules", "licensed", "not a medical device", "EdgeLens 0.1.0", "EdgeLens default" }, fact => Assert.Contains(fact, text, StringComparison.Ordinal));
    }

    [Fact]
    public void The_same_inspection_gives_the_same_page() => Assert.Equal(Html(SyntheticCases.Worn.Inspect()), Html(SyntheticCases.Worn.Inspect()));

    [Fact]
    public void A_picture_that_is_no_JPEG_or_belongs_to_another_outline_is_our_mistake()
    {
        Inspection inspection = SyntheticCases.Sharp.Inspect();

        Assert.Throws<ArgumentException>(() => new ReportPhotograph("<svg>"u8.ToArray(), 10, 10, [], 0.01));
        Assert.Throws<ArgumentException>(() => InspectionReport.ToHtml(inspection, new(new byte[] { 0xFF, 0xD8, 0xFF }, 10, 10, [new(1, 1)], 0.01), ReportCases.Context));
    }

    private static string Html(Inspection inspection) => InspectionReport.ToHtml(inspection, ReportCases.Photograph(inspection), ReportCases.Context);

    internal static XElement Parse(string html) => XDocument.Parse(html.Replace("<!DOCTYPE html>", "", StringComparison.Ordinal)).Root!;

    /// <summary>HTML ignores the closing slash of an element that is not void, and swallows what comes after it.</summary>
    [GeneratedRegex(@"<(div|span|p|li|ol|ul|table|thead|tbody|tr|td|th|section|figure|figcaption|h\d|small|strong|bdi|code|dl|dt|dd|svg|g|text|defs|pattern|style|title|main|header|footer|time)\b[^>]*/>")]
    private static partial Regex ClosedByItself();
}
