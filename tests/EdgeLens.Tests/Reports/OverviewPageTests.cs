using System.Xml.Linq;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Reports;
using EdgeLens.Reports.Html;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.Reports;

public sealed class OverviewPageTests
{
    [Fact]
    public void The_most_urgent_working_end_comes_first()
    {
        Inspection[] inspections = [SyntheticCases.Sharp.Inspect(id: "A"), ReportCases.Refused(), SyntheticCases.DullAndNicked.Inspect(id: "B"), SyntheticCases.Worn.Inspect(id: "Z")];

        XElement page = Page(inspections);

        Assert.Equal(["Z", "B", "UC-07", "A"], page.Descendants("bdi").Select(b => b.Value).Where(b => b != "Fallow Lane Animal Clinic"));
        Assert.Equal(["retire", "resharpen", "retake", "keep"], page.Descendants("li").Select(li => li.Attribute("class")!.Value));
        Assert.Equal(inspections.Length, page.Descendants("a").Count());
    }

    [Fact]
    public void Hostile_names_are_shown_and_never_obeyed()
    {
        const string Hostile = "<script>alert(1)</script>\"'&";

        XElement page = Page(SyntheticCases.Sharp.Inspect(id: Hostile));

        Assert.Empty(page.Descendants("script"));
        Assert.Contains(page.Descendants("bdi"), b => b.Value == Hostile);
    }

    [Fact]
    public void A_report_leads_to_its_neighbours_and_not_to_itself()
    {
        Inspection inspection = SyntheticCases.Sharp.Inspect();
        ReportContext context = ReportCases.Context with
        {
            OverviewHref = "index.html",
            History = [new(new(2025, 1, 10), "keep", "Keep in use", "a.html"), new(new(2025, 6, 20), "resharpen", "Resharpen both edges", null)],
        };

        XElement page = Parse(InspectionReport.ToHtml(inspection, null, context));

        Assert.Equal(["index.html", "a.html"], page.Descendants("a").Select(a => a.Attribute("href")!.Value));
        Assert.Contains("Resharpen both edges (this report)", page.Value, StringComparison.Ordinal);
    }

    private static XElement Page(params Inspection[] inspections) =>
        Parse(OverviewPage.ToHtml([.. inspections.Select((inspection, i) => new OverviewEntry(inspection, $"{i}.html", 1))], ReportCases.Context));

    private static XElement Parse(string html) => XElement.Parse(html["<!DOCTYPE html>\n".Length..]);
}
