using System.Text;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Tests.HouseRules;
using Xunit;

namespace EdgeLens.Tests.Commands;

public sealed class CardAndLensTests
{
    [Fact]
    public void A_card_is_drawn_in_the_form_that_the_file_s_name_asks_for()
    {
        using TestFolder folder = new();

        ProgramRun run = ProgramRun.Of("card", "--out", folder.PathOf("new/card.pdf"), folder.PathOf("card.svg"), folder.PathOf("card.png"), "--paper", "letter", "--dpi", "300", "--json");

        Assert.Equal(0, run.ExitCode);
        Assert.Equal(("id1-2.0", 40.0, 30.0, 3), (
            run.Json.GetProperty("card").GetString(), run.Json.GetProperty("barXMm").GetDouble(), run.Json.GetProperty("barYMm").GetDouble(), run.Json.GetProperty("files").GetArrayLength()));
        // The first bytes by the standards of the forms: ISO 32000-1, PNG (ISO/IEC 15948).
        Assert.StartsWith("%PDF-", Encoding.Latin1.GetString(File.ReadAllBytes(folder.PathOf("new/card.pdf"))), StringComparison.Ordinal);
        Assert.Equal([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], File.ReadAllBytes(folder.PathOf("card.png"))[..8]);
        Assert.Contains("<svg", File.ReadAllText(folder.PathOf("card.svg")), StringComparison.Ordinal);
        Assert.Equal(["card.png", "card.svg"], folder.Files());
    }

    [Fact]
    public void Another_card_is_another_description()
    {
        using TestFolder folder = new();
        string description = folder.Write("own.json", Repository.ReadText("calibration/card-id1-2.0.json").Replace("\"id1-2.0\"", "\"own-card\"", StringComparison.Ordinal));

        ProgramRun run = ProgramRun.Of("card", "--out", folder.PathOf("card.svg"), "--description", description, "--json");

        Assert.Equal((0, "own-card"), (run.ExitCode, run.Json.GetProperty("card").GetString()));
        Assert.Contains("own-card", File.ReadAllText(folder.PathOf("card.svg")), StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_cannot_be_written_ends_with_3()
    {
        using TestFolder folder = new();
        folder.Write("taken", "a file, not a folder");

        ProgramRun run = ProgramRun.Of("card", "--out", folder.PathOf("taken/card.svg"));

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("card.svg", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Photographs_of_different_cameras_are_no_lens_profile()
    {
        using TestFolder folder = new();
        string[] faces = [.. new[] { "2025-06-20", "2025-06-21", "2025-11-15" }.Select(day => Repository.PathOf($"demo-images/C-07/{day}-face.jpg"))];

        // Each demo photograph has a camera of its own (demo-images/README.md): focal lengths differ by far more than refocusing.
        ProgramRun run = ProgramRun.Of(["lens", .. faces, "--out", folder.PathOf("lens.json"), "--json"]);

        Assert.Equal(2, run.ExitCode);
        Assert.StartsWith("lens-profile-", run.Json.GetProperty("error").GetString(), StringComparison.Ordinal);
        Assert.Empty(folder.Files());
        Assert.Equal(3, run.Error.Split('\n').Count(line => line.StartsWith('[')));
    }

    [Fact]
    public void Photographs_from_one_side_only_are_refused_as_too_weak()
    {
        using TestFolder folder = new();
        // The same photograph three times shares a lens, but a single tilt cannot tell focal length from distance.
        string face = Repository.PathOf("demo-images/C-12/2025-02-01-face.jpg");

        ProgramRun run = ProgramRun.Of("lens", face, face, face, "--out", folder.PathOf("lens.json"), "--json");

        Assert.Equal(2, run.ExitCode);
        Assert.StartsWith("lens-profile-weak", run.Json.GetProperty("error").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Tilted_photographs_of_one_camera_give_its_lens_within_the_stated_uncertainty()
    {
        using TestFolder folder = new();
        (double Pitch, double Yaw)[] tilts = [(11, 0), (-11, 2), (1, 12), (-2, -12), (8, -8)];
        string[] files = [.. tilts.Select((tilt, i) => folder.PathOf(FormattableString.Invariant($"card{i}.png")))];
        for (int i = 0; i < files.Length; i++) File.WriteAllBytes(files[i], MadeCardPhotograph.Png(tilts[i].Pitch, tilts[i].Yaw));
        string none = folder.Write("none.jpg", "");

        ProgramRun run = ProgramRun.Of(["lens", .. files, none, "--bar-x", "40", "--bar-y", "30", "--name", "loupe", "--out", folder.PathOf("lens.json"), "--json"]);

        // 2: the empty file was left out and told; the profile is made from the rest.
        Assert.Equal(2, run.ExitCode);
        Assert.Equal("file-empty", run.Json.GetProperty("refused")[0].GetProperty("code").GetString());
        LensProfile profile = LensProfile.FromJson(File.ReadAllText(folder.PathOf("lens.json"))).Value;
        Assert.Equal(("loupe", 5), (profile.Name, profile.PhotographCount));
        // The made camera, MadeCardPhotograph: within 3 standard uncertainties (a normal error leaves them once in 370 times).
        Assert.InRange(profile.FocalLengthPx.Value, MadeCardPhotograph.FocalPx - 3 * profile.FocalLengthPx.StandardUncertainty, MadeCardPhotograph.FocalPx + 3 * profile.FocalLengthPx.StandardUncertainty);
        Assert.InRange(profile.K1.Value, -3 * profile.K1.StandardUncertainty, 3 * profile.K1.StandardUncertainty);
        Assert.InRange(profile.FocalLengthPx.StandardUncertainty / MadeCardPhotograph.FocalPx, 0, LensProfiler.FocalLimit);
    }
}
