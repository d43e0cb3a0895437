using System.Text.Json;
using EdgeLens.Tests.HouseRules;
using Xunit;

namespace EdgeLens.Tests.Commands;

/// <summary>A folder where nearly everything is wrong: what can be done is done, and the rest is told.</summary>
public sealed class HostileBatchTests
{
    [Fact]
    public void A_bad_photograph_stops_no_other()
    {
        using TestFolder folder = new();
        byte[] good = File.ReadAllBytes(Repository.PathOf("demo-images/C-12/2025-02-01-face.jpg"));
        File.WriteAllBytes(folder.PathOf("good.jpg"), good);
        File.WriteAllBytes(folder.PathOf("cut.jpg"), good[..(good.Length / 2)]);
        folder.Write("words.jpg", "<html>not a picture</html>");
        folder.Write("empty.jpg", "");
        folder.Write("index.json", Index("missing", "cut", "words", "empty", "good"));

        ProgramRun run = ProgramRun.Of("inspect", folder.Root, "--out", folder.PathOf("out"), "--json");

        Assert.Equal(3, run.ExitCode);
        Dictionary<string, JsonElement> byName = run.Json.GetProperty("inspections").EnumerateArray().ToDictionary(i => i.GetProperty("instrumentId").GetString()!);
        Assert.Equal(5, byName.Count);
        Assert.Equal("file-unreadable", Code(byName["missing"]));
        Assert.Equal("file-truncated", Code(byName["cut"]));
        Assert.Equal("file-not-a-picture", Code(byName["words"]));
        Assert.Equal("file-empty", Code(byName["empty"]));
        Assert.Equal("keep", byName["good"].GetProperty("verdict").GetString());
        Assert.All(byName.Where(i => i.Key != "good"), i => Assert.Equal("retake", i.Value.GetProperty("verdict").GetString()));
        // Every inspection has its report, and nothing half-written lies beside them.
        Assert.Equal(11, folder.Files("out").Length);
        Assert.DoesNotContain(folder.Files("out"), f => f.EndsWith(".part", StringComparison.Ordinal));
    }

    [Fact]
    public void A_second_photograph_of_a_view_is_told_in_result_and_report()
    {
        using TestFolder folder = new();
        folder.Write("toe.jpg", "no picture");
        folder.Write("toe-2.jpg", "never opened");
        folder.Write("index.json", """
            {"instruments": [{"id": "C-1", "family": "universal-curette", "inspections": [{"date": "2025-01-10", "as_new": true, "photos": [{"file": "toe.jpg", "view": "toe"}, {"file": "toe-2.jpg", "view": "toe"}]}]}]}
            """);

        ProgramRun run = ProgramRun.Of("inspect", folder.Root, "--out", folder.PathOf("out"), "--json");

        Assert.Equal(2, run.ExitCode);
        JsonElement inspection = run.Json.GetProperty("inspections")[0];
        Assert.Equal("no-face-view", Code(inspection));
        Assert.Equal("toe", inspection.GetProperty("notMeasured")[0].GetProperty("view").GetString());
        Assert.Equal("toe-2.jpg", inspection.GetProperty("notMeasured")[0].GetProperty("fileName").GetString());
        Assert.Contains(inspection.GetProperty("refusals").EnumerateArray(), r => r.GetProperty("fileName").GetString() == "toe.jpg");
        Assert.Contains("toe-2.jpg", File.ReadAllText(inspection.GetProperty("htmlFile").GetString()!), StringComparison.Ordinal);
    }

    [Fact]
    public void A_report_that_cannot_be_written_stops_no_other()
    {
        using TestFolder folder = new();
        folder.Write("index.json", Index("a", "b"));
        // A folder stands where a's report belongs.
        Directory.CreateDirectory(folder.PathOf("out/a-end1-2025-01-10.html"));

        ProgramRun run = ProgramRun.Of("inspect", folder.Root, "--out", folder.PathOf("out"), "--json");

        Assert.Equal(3, run.ExitCode);
        Assert.Equal("a", run.Json.GetProperty("failures").EnumerateArray().Single().GetProperty("instrumentId").GetString());
        Assert.Equal("b", run.Json.GetProperty("inspections").EnumerateArray().Single().GetProperty("instrumentId").GetString());
        Assert.Contains("b-end1-2025-01-10.html", folder.Files("out"));
        Assert.DoesNotContain(folder.Files("out"), f => f.EndsWith(".part", StringComparison.Ordinal));
    }

    private static string Code(JsonElement inspection) => inspection.GetProperty("refusals")[0].GetProperty("code").GetString()!;

    private static string Index(params string[] names) =>
        $$"""{"instruments": [{{string.Join(",", names.Select(n => $$"""{"id": "{{n}}", "family": "area-specific-curette", "inspections": [{"date": "2025-01-10", "as_new": true, "photos": [{"file": "{{n}}.jpg", "view": "face"}]}]}"""))}}]}""";
}
