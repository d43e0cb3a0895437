using System.Text.Json;
using EdgeLens.Tests.Commands;
using EdgeLens.Tests.HouseRules;
using Xunit;

namespace EdgeLens.Tests.Studies;

/// <summary>A demo study of copies: AB reads the card's bars right, CD reads them half a percent too long; nothing else differs.</summary>
public sealed class StudyCommandTests
{
    private static readonly (string Id, string Family, string AsNew, string Photo, double X, double Y)[] Ends =
    [
        ("C-07", "universal-curette", "2025-01-10", "2025-06-21", 40.01, 30.02), ("C-12", "area-specific-curette", "2025-02-01", "2025-05-05", 40.18, 30.19),
    ];

    [Fact]
    public void A_person_who_misreads_the_bars_is_seen_as_a_difference_between_people()
    {
        using TestFolder folder = new();
        folder.Write("index.json", Index(folder));
        ProgramRun run = ProgramRun.Of("study", folder.Root, "--out", folder.PathOf("study.html"), "--json");

        Assert.Equal(0, run.ExitCode);
        Assert.Equal(8, run.Json.GetProperty("photographs").GetInt32());
        JsonElement toe = Figure(run.Json, "toeRadiusUm");
        // The same file twice: no repeat scatter. Two people 0.5 % apart: standard deviation 0.5 % / √2 of a toe of about 420 to 440 µm, give or take how the card's corners share the misreading.
        Assert.Equal(0, toe.GetProperty("repeatabilitySd").GetDouble());
        Assert.InRange(toe.GetProperty("reproducibilitySd").GetDouble(), 0.8 * 0.005 / Math.Sqrt(2) * 400, 1.2 * 0.005 / Math.Sqrt(2) * 450);
        Assert.True(toe.GetProperty("smallestChangeSeen").GetDouble() > 2.8 * toe.GetProperty("reproducibilitySd").GetDouble());
        Assert.Equal("good", Figure(run.Json, "lengthLossMm").GetProperty("grade").GetString());
        string html = File.ReadAllText(folder.PathOf("study.html"));
        Assert.Contains("What our photographs can see", html, StringComparison.Ordinal);
        Assert.Contains("People differ more from each other", html, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_without_names_is_no_study()
    {
        using TestFolder folder = new();
        folder.Write("index.json", Index(folder).Replace("taken_by", "taken_with", StringComparison.Ordinal));
        ProgramRun run = ProgramRun.Of("study", folder.Root);
        Assert.Equal(2, run.ExitCode);
        Assert.Contains("study-too-small", run.Error, StringComparison.Ordinal);
    }

    private static JsonElement Figure(JsonElement study, string name) => study.GetProperty("figures").EnumerateArray().Single(f => f.GetProperty("figure").GetString() == name);

    private static string Index(TestFolder folder)
    {
        foreach (var end in Ends)
            foreach (string day in new[] { end.AsNew, end.Photo })
                File.Copy(Repository.PathOf($"demo-images/{end.Id}/{day}-face.jpg"), folder.PathOf($"{end.Id}-{day}.jpg"));
        return JsonSerializer.Serialize(new
        {
            instruments = Ends.Select(e => new
            {
                id = e.Id,
                family = e.Family,
                inspections = new object[]
                {
                    new { date = e.AsNew, as_new = true, photos = new object[] { new { file = $"{e.Id}-{e.AsNew}.jpg", view = "face" } } },
                    new
                    {
                        date = e.Photo,
                        photos = new[] { "AB", "CD", "AB", "CD" }.Select(by => new { file = $"{e.Id}-{e.Photo}.jpg", view = "face", taken_by = by, bars_measured_mm = Bars(e, by) }).ToArray(),
                    },
                },
            }),
        });
    }

    private static double[] Bars((string Id, string Family, string AsNew, string Photo, double X, double Y) end, string by) => by == "AB" ? [end.X, end.Y] : [end.X * 1.005, end.Y * 1.005];
}
