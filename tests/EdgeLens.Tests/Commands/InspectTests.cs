using System.Text.Json;
using EdgeLens.Tests.HouseRules;
using EdgeLens.Tests.Reports;
using Xunit;

namespace EdgeLens.Tests.Commands;

public sealed class InspectTests
{
    private const string New = "C-12/2025-02-01-face.jpg";
    private const string Dull = "C-12/2025-05-05-face.jpg";
    private static readonly JsonElement Schema = JsonElement.Parse(Repository.ReadText("docs/inspection.schema.json"));

    [Fact]
    public void Two_photographs_give_a_report_an_overview_and_JSON_of_the_documented_shape()
    {
        using TestFolder folder = new();

        ProgramRun run = ProgramRun.Of(
            "inspect", "--today", Demo(Dull), "--baseline", Demo(New), "--family", "area-specific-curette", "--working-edge", "right", "--instrument", "C/12",
            "--bar-x", "40.05", "--bar-y", "30.04", "--out", folder.PathOf("out"), "--json");

        Assert.Equal(0, run.ExitCode);
        JsonElement[] inspections = [.. run.Json.GetProperty("inspections").EnumerateArray()];
        Assert.Equal([true, false], inspections.Select(i => i.GetProperty("isAsNew").GetBoolean()));
        JsonElement today = inspections[1];
        Assert.Equal("resharpen", today.GetProperty("verdict").GetString());
        JsonElement written = JsonElement.Parse(File.ReadAllText(today.GetProperty("jsonFile").GetString()!));
        Assert.Empty(new SchemaCheck(Schema).Violations(written));
        Assert.Equal(("C/12", "right"), (written.GetProperty("instrumentId").GetString(), written.GetProperty("workingEdge").GetString()));
        Assert.Equal(JsonValueKind.Object, written.GetProperty("drift").ValueKind);
        string html = File.ReadAllText(today.GetProperty("htmlFile").GetString()!);
        Assert.Contains("data:image/jpeg;base64,", html, StringComparison.Ordinal);
        Assert.Contains(Path.GetFileName(inspections[0].GetProperty("htmlFile").GetString()!), html, StringComparison.Ordinal);
        Assert.Contains(Path.GetFileName(today.GetProperty("htmlFile").GetString()!), File.ReadAllText(run.Json.GetProperty("overviewFile").GetString()!), StringComparison.Ordinal);
        Assert.Contains("[2/2]", run.Error, StringComparison.Ordinal);
        Assert.Equal(5, folder.Files("out").Length);
    }

    [Fact]
    public void The_same_photographs_give_the_same_bytes()
    {
        using TestFolder folder = new();

        ProgramRun first = Measure(), second = Measure();

        Assert.Equal(0, first.ExitCode);
        Assert.Equal(first.Out, second.Out);
        Assert.Empty(new SchemaCheck(Schema).Violations(first.Json));

        static ProgramRun Measure() => ProgramRun.Of("measure", Demo(New), "--family", "area-specific-curette", "--json");
    }

    [Fact]
    public void Measure_tells_every_figure_with_its_unit_and_uncertainty()
    {
        ProgramRun run = ProgramRun.Of("measure", Demo(New), "--family", "area-specific-curette", "--bar-x", "40.05", "--bar-y", "30.04");

        Assert.Equal(0, run.ExitCode);
        Assert.Matches(@"toe radius +\d+ ± \d+(\.\d+)? µm", run.Out);
        Assert.Matches(@"width 1\.0 mm back from the apex +0\.\d+ ± 0\.\d+ mm", run.Out);
        Assert.Contains("k = 2", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_stricter_policy_moves_the_sharp_limit_of_the_measurement_too()
    {
        using TestFolder folder = new();
        string policy = folder.Write("policy.json", EdgeLens.Assessment.Policies.Policy.DefaultJson.Replace("\"sharpLimitUm\": 4", "\"sharpLimitUm\": 3", StringComparison.Ordinal));

        ProgramRun run = ProgramRun.Of("measure", Demo(New), "--family", "area-specific-curette", "--policy", policy, "--json");

        Assert.Equal(3, run.Json.GetProperty("today").GetProperty("light").GetProperty("sharpLimitUm").GetDouble());
    }

    [Fact]
    public void A_refused_photograph_ends_with_2_and_says_what_to_do()
    {
        ProgramRun run = ProgramRun.Of("measure", Demo("refuse/overexposed.jpg"), "--family", "universal-curette", "--json");

        Assert.Equal(2, run.ExitCode);
        JsonElement refusal = run.Json.GetProperty("refusals")[0];
        Assert.Equal("overexposed", refusal.GetProperty("code").GetString());
        Assert.NotEmpty(refusal.GetProperty("advice").GetString()!);
        Assert.Equal("retake", run.Json.GetProperty("verdict").GetProperty("kind").GetString());
    }

    [Fact]
    public void A_report_of_one_instrument_is_one_file()
    {
        using TestFolder folder = new();

        ProgramRun run = ProgramRun.Of("report", Repository.PathOf("demo-images"), "--instrument", "C-12", "--date", "2025-02-01", "--out", folder.PathOf("c12.html"));
        ProgramRun unknown = ProgramRun.Of("report", Repository.PathOf("demo-images"), "--instrument", "C-99", "--json");

        Assert.Equal((0, 1), (run.ExitCode, unknown.ExitCode));
        Assert.Equal(["c12.html"], folder.Files());
        Assert.Contains("Rendered, not photographed.", File.ReadAllText(folder.PathOf("c12.html")), StringComparison.Ordinal);
        Assert.Contains("C-07 end 1", unknown.Error, StringComparison.Ordinal);
    }

    /// <summary>Truth of the demo (demo-images/README.md): face 90°, internal angles 72° left and 74° right; the file names say nothing to the program.</summary>
    [Fact]
    public void A_face_and_a_toe_view_together_give_the_angles_and_the_pictures_tell_which_is_which()
    {
        ProgramRun run = ProgramRun.Of("measure", Demo("C-07/2025-06-21-toe.jpg"), Demo("C-07/2025-06-21-face.jpg"), "--family", "universal-curette", "--json");

        Assert.Equal(0, run.ExitCode);
        Assert.Empty(new SchemaCheck(Schema).Violations(run.Json));
        Assert.Equal("2025-06-21-face.jpg", run.Json.GetProperty("today").GetProperty("photograph").GetProperty("fileName").GetString());
        JsonElement angles = run.Json.GetProperty("todayAngles");
        Assert.Equal(("toe", "both"), (angles.GetProperty("view").GetString(), angles.GetProperty("cuttingEdges").GetString()));
        Within(90, angles.GetProperty("faceAngleDeg"));
        Within(74, angles.GetProperty("internalAngleRightDeg"));
        Within(72, angles.GetProperty("internalAngleLeftDeg"));

        static void Within(double truth, JsonElement figure) =>
            Assert.InRange(figure.GetProperty("value").GetDouble() - truth, -1.5 * figure.GetProperty("expandedUncertainty").GetDouble(), 1.5 * figure.GetProperty("expandedUncertainty").GetDouble());
    }

    [Fact]
    public void A_stated_view_that_the_picture_contradicts_is_refused_and_says_so()
    {
        using TestFolder folder = new();
        File.Copy(Demo("L-02/2025-05-05-side.jpg"), folder.PathOf("a.jpg"));
        folder.Write("index.json", """{"instruments": [{"id": "L", "family": "luxator", "inspections": [{"date": "2025-01-10", "photos": [{"file": "a.jpg", "view": "face"}]}]}]}""");

        ProgramRun run = ProgramRun.Of("report", folder.Root, "--instrument", "L", "--json");

        Assert.Equal(2, run.ExitCode);
        JsonElement refusal = run.Json.GetProperty("refusals")[0];
        Assert.Equal("wrong-view", refusal.GetProperty("code").GetString());
        Assert.Contains("shows a side view", refusal.GetProperty("reason").GetString(), StringComparison.Ordinal);
    }

    private static string Demo(string file) => Repository.PathOf("demo-images/" + file);
}
