using System.Text.Json;
using System.Xml.Linq;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Reports;
using EdgeLens.Reports.Html;
using EdgeLens.Reports.Json;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.Reports;

/// <summary>Angles, their drift and the stone in report and JSON.</summary>
public sealed class AngleReportTests
{
    private static Inspection OverCut => SyntheticCases.Sharp.Inspect().With(SyntheticAngles.Toe(66, 75.2), SyntheticAngles.Toe(76, 75));

    [Fact]
    public void The_lines_are_drawn_over_the_photograph_where_they_were_fitted()
    {
        AngleMeasurement angles = OverCut.TodayAngles!;
        ReportPhotograph face = SyntheticPhotograph.Of(OverCut);
        XElement page = Page(OverCut, new ReportAnglePhotograph(face.Jpeg, face.WidthPx, face.HeightPx, angles.Lines));

        XElement[] drawn = [.. page.Descendants("path").Where(p => ((string?)p.Attribute("class"))?.StartsWith("fitted", StringComparison.Ordinal) == true && p.Parent!.Attribute("class")!.Value == "picture")];
        Assert.Equal(3, drawn.Length);
        // A pixel's centre (20, 80) lies half a pixel into the drawing.
        Assert.Contains(drawn, p => p.Attribute("class")!.Value == "fitted face" && p.Attribute("d")!.Value.StartsWith("M20.5 80.5", StringComparison.Ordinal));
    }

    [Fact]
    public void An_over_cut_edge_is_named_with_the_stone_s_angle_and_what_it_costs()
    {
        string text = Page(OverCut).Value;

        // 180° - 76°; by hand: (cot 66° - cot 76°) 0.31 mm = 60.7 µm.
        Assert.Contains("Left edge: hold the stone at 104.0", text, StringComparison.Ordinal);
        Assert.Contains("Over-cut: the internal angle is 10.0 ± 1.7 ° too small", text, StringComparison.Ordinal);
        Assert.Matches(@"takes 6[01](\.\d)? ± \d+(\.\d)? µm off the width", text);
        Assert.Contains("Today's internal angle cannot be told from it", text, StringComparison.Ordinal);
        Assert.Contains("Change since new", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_an_as_new_angle_the_family_s_is_planned_and_said_to_be_so()
    {
        string text = Page(SyntheticCases.Sharp.Inspect().With(SyntheticAngles.Toe(66, null), null)).Value;

        Assert.Contains("105° to the face, the family's nominal angle", text, StringComparison.Ordinal);
        Assert.Contains("not planned, because its angle was not measured", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Angles_in_JSON_keep_to_the_schema(bool side)
    {
        Inspection inspection = side ? SyntheticCases.DullLuxator.Inspect().With(SyntheticAngles.Side(38), SyntheticAngles.Side(45)) : OverCut.With(SyntheticAngles.Toe(66, null), SyntheticAngles.Toe(76, 75));
        JsonElement json = JsonElement.Parse(InspectionJson.Write(inspection, ReportCases.Context));

        Assert.Empty(new SchemaCheck(JsonElement.Parse(HouseRules.Repository.ReadText("docs/inspection.schema.json"))).Violations(json));
        JsonElement plan = json.GetProperty("stonePlans")[0];
        Assert.Equal(side ? 135 : 104, plan.GetProperty("stoneToFaceDeg").GetProperty("value").GetDouble(), 9);
        Assert.Equal("overCut", plan.GetProperty("cutError").GetString());
        Assert.Equal(side ? -7 : -10, json.GetProperty("angleDrift").GetProperty(side ? "wedgeAngleDeg" : "internalAngleLeftDeg").GetProperty("value").GetDouble(), 9);
    }

    private static XElement Page(Inspection inspection, params ReportAnglePhotograph[] pictures)
    {
        string html = InspectionReport.ToHtml(inspection, ReportCases.Photograph(inspection), ReportCases.Context, [.. pictures]);
        return XElement.Parse(html["<!DOCTYPE html>".Length..]);
    }
}
