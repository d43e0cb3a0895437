using System.Text.Json;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Geometry.Figures;
using EdgeLens.Reports.Json;
using EdgeLens.Tests.HouseRules;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.Reports;

public sealed class InspectionJsonTests
{
    private static readonly JsonElement Schema = JsonElement.Parse(Repository.ReadText("docs/inspection.schema.json"));

    [Theory]
    [MemberData(nameof(ReportCases.Names), MemberType = typeof(ReportCases))]
    public void What_is_written_is_what_the_schema_documents(string name) => Assert.Empty(new SchemaCheck(Schema).Violations(Written(ReportCases.ByName[name].Value)));

    [Theory]
    [MemberData(nameof(ReportCases.Names), MemberType = typeof(ReportCases))]
    public void Whatever_is_missing_has_its_reason_beside_and_whatever_is_measured_has_none(string name)
    {
        int seen = 0;
        foreach (JsonElement holder in Objects(Written(ReportCases.ByName[name].Value)))
        {
            Dictionary<string, JsonElement> members = holder.EnumerateObject().ToDictionary(m => m.Name, m => m.Value);
            foreach ((string property, JsonElement value) in members.Where(m => MayBeMissing.Contains(m.Key) && !IsRefusal(members)))
            {
                bool hasReason = members.TryGetValue(property + "Missing", out JsonElement reason) && !string.IsNullOrWhiteSpace(reason.GetString());
                Assert.Equal(value.ValueKind == JsonValueKind.Null, hasReason);
                seen++;
            }
        }
        Assert.True(seen >= 3);
    }

    /// <summary>Every property of the schema that has a "...Missing" beside it.</summary>
    private static HashSet<string> MayBeMissing { get; } =
        [.. Objects(Schema).SelectMany(o => o.EnumerateObject()).Select(p => p.Name).Where(n => n.EndsWith("Missing", StringComparison.Ordinal)).Select(n => n[..^"Missing".Length])];

    [Fact]
    public void Figures_come_out_as_they_went_in()
    {
        Inspection inspection = SyntheticCases.DullAndNicked.Inspect();

        JsonElement written = Written(inspection);

        Measured width = inspection.Today!.Widths[3].WidthMm;
        JsonElement station = written.GetProperty("today").GetProperty("widthsAtStations")[3];
        Assert.Equal(2, station.GetProperty("stationMm").GetDouble());
        Assert.Equal(width.Value, station.GetProperty("widthMm").GetProperty("value").GetDouble(), 1e-6);
        Assert.Equal(2 * width.StandardUncertainty, station.GetProperty("widthMm").GetProperty("expandedUncertainty").GetDouble(), 1e-6);
        Assert.Equal(62, written.GetProperty("today").GetProperty("nicks")[0].GetProperty("depthUm").GetProperty("value").GetDouble());
        Assert.Equal(0.45, written.GetProperty("today").GetProperty("scale").GetProperty("relativeStandardUncertaintyPercent").GetDouble(), 1e-9);
        Assert.Equal(inspection.Today.Outline.Points.Length, written.GetProperty("today").GetProperty("outline").GetProperty("points").GetArrayLength());
        Assert.Equal(inspection.Drift!.LengthLossUm.Measured!.Value.Value, written.GetProperty("drift").GetProperty("lengthLossUm").GetProperty("value").GetDouble(), 1e-6);
    }

    [Fact]
    public void The_verdict_comes_with_its_reasons_and_every_comparison()
    {
        Inspection inspection = SyntheticCases.SlightlyDull.Inspect();

        JsonElement verdict = Written(inspection).GetProperty("verdict");

        Assert.Equal("touch-up", verdict.GetProperty("kind").GetString());
        Assert.Equal(inspection.Verdict.Reasons[0].Words, verdict.GetProperty("reasons")[0].GetString());
        Assert.Equal(inspection.Verdict.Checks.Length, verdict.GetProperty("checks").GetArrayLength());
        JsonElement decisive = Assert.Single(verdict.GetProperty("checks").EnumerateArray(), c => c.GetProperty("isReason").GetBoolean());
        Assert.Equal(("left", "outside", "touch-up", 5.0), (decisive.GetProperty("part").GetString(), decisive.GetProperty("conformity").GetString(), decisive.GetProperty("limitFor").GetString(), decisive.GetProperty("limit").GetDouble()));
    }

    [Fact]
    public void A_refused_photograph_is_written_in_whole() => Assert.Equal(
        """
        {
          "schemaVersion": 1,
          "programVersion": "0.1.0",
          "practiceName": "Fallow Lane Animal Clinic",
          "isRenderedDemo": false,
          "instrumentId": "UC-07",
          "workingEnd": 2,
          "family": "universal-curette",
          "workingEdge": null,
          "date": "2025-06-20",
          "isAsNew": false,
          "baselineDate": null,
          "conditionNote": null,
          "coverageFactor": 2,
          "verdict": {
            "kind": "retake",
            "headline": "Take another photograph",
            "policyName": "EdgeLens default",
            "reasons": [
              "The cutting edge is out of focus: measured 41.25 µm, limit 25 µm."
            ],
            "remarks": [],
            "nextSteps": [
              "Move the phone until the edge itself is sharpest."
            ],
            "checks": []
          },
          "refusals": [
            {
              "subject": "todayFaceView",
              "fileName": "IMG_0412.jpg",
              "code": "out-of-focus",
              "reason": "The cutting edge is out of focus.",
              "advice": "Move the phone until the edge itself is sharpest.",
              "figure": 41.25,
              "limit": 25,
              "unit": "µm"
            }
          ],
          "today": null,
          "todayMissing": "The cutting edge is out of focus.",
          "baseline": null,
          "baselineMissing": "there is no as-new photograph of this working end",
          "drift": null,
          "driftMissing": "it takes a face view of today and an as-new one",
          "todayAngles": null,
          "todayAnglesMissing": "there is no toe or side view of this day",
          "baselineAngles": null,
          "baselineAnglesMissing": "there is no as-new toe or side view of this working end",
          "angleDrift": null,
          "angleDriftMissing": "it takes a toe or side view of today and an as-new one",
          "stonePlans": [],
          "shapeFindings": [],
          "sharpeningPlan": null,
          "sharpeningPlanMissing": "nothing is to be ground"
        }

        """, InspectionJson.Write(ReportCases.Refused(), ReportCases.Context));

    [Fact]
    public void The_same_inspection_gives_the_same_bytes() =>
        Assert.Equal(InspectionJson.Write(SyntheticCases.Worn.Inspect(), ReportCases.Context), InspectionJson.Write(SyntheticCases.Worn.Inspect(), ReportCases.Context));

    [Theory]
    [InlineData("\"}, {\"\\ \n\t\u0001\u202E")]
    [InlineData("half a pair \uD83D")]
    public void A_hostile_name_stays_a_name(string name)
    {
        string? read = Written(SyntheticCases.Sharp.Inspect(id: name)).GetProperty("instrumentId").GetString();
        Assert.Equal(name.Replace('\uD83D', '\uFFFD'), read);
    }

    [Fact]
    public void The_page_about_the_format_names_every_property_of_its_parts()
    {
        string page = Repository.ReadText("docs/inspection-json.md");
        IEnumerable<string> names = new[] { Schema }.Concat(new[] { "verdict", "check", "refusal", "face", "drift", "angles", "angleDrift", "stonePlan" }.Select(d => Schema.GetProperty("$defs").GetProperty(d)))
            .SelectMany(o => o.GetProperty("properties").EnumerateObject()).Select(p => p.Name).Where(n => !n.EndsWith("Missing", StringComparison.Ordinal));
        Assert.All(names, n => Assert.Contains($"`{n}`", page, StringComparison.Ordinal));
    }

    // A refusal's figure is null when none was measured: it is not a figure with an uncertainty.
    private static bool IsRefusal(Dictionary<string, JsonElement> members) => members.ContainsKey("advice");

    private static JsonElement Written(Inspection inspection) => JsonElement.Parse(InspectionJson.Write(inspection, ReportCases.Context));

    private static IEnumerable<JsonElement> Objects(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Object => value.EnumerateObject().SelectMany(m => Objects(m.Value)).Prepend(value),
        JsonValueKind.Array => value.EnumerateArray().SelectMany(Objects),
        _ => [],
    };
}
