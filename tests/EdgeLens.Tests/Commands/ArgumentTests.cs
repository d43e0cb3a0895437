using EdgeLens.Tests.HouseRules;
using Xunit;

namespace EdgeLens.Tests.Commands;

public sealed class ArgumentTests
{
    private static readonly string Photograph = Repository.PathOf("demo-images/refuse/overexposed.jpg");

    [Theory]
    [InlineData("", "edgelens --help")]
    [InlineData("polish", "polish")]
    [InlineData("measure", "PHOTOGRAPH")]
    [InlineData("measure x.jpg", "--family")]
    [InlineData("measure x.jpg --family hoe", "hoe")]
    [InlineData("measure x.jpg --family luxator --bar-x 40", "--bar-y")]
    [InlineData("measure x.jpg --family luxator --bar-x 30 --bar-y 40", "swapped")]
    [InlineData("measure x.jpg --family luxator --bar-x forty --bar-y 30", "forty")]
    [InlineData("measure x.jpg --family luxator --height 90", "--height")]
    [InlineData("measure x.jpg --family luxator --height-limit -1", "--height-limit")]
    [InlineData("measure x.jpg --family luxator --working-end 0", "--working-end")]
    [InlineData("inspect --out o", "--today")]
    [InlineData("inspect folder", "--out")]
    [InlineData("inspect folder --family luxator --out o", "--family")]
    [InlineData("inspect folder --today x.jpg --out o", "--today")]
    [InlineData("card --out card.bmp", ".pdf")]
    [InlineData("card --out card.png --dpi 50", "--dpi")]
    [InlineData("card --out card.pdf --paper a0", "a0")]
    [InlineData("report folder --instrument A", "--out")]
    [InlineData("lens", "PHOTOGRAPH")]
    public void A_wrong_command_line_ends_with_1_and_names_what_is_wrong(string line, string named)
    {
        ProgramRun run = ProgramRun.Of(line.Split(' ', StringSplitOptions.RemoveEmptyEntries));

        Assert.Equal(1, run.ExitCode);
        Assert.Contains(named, run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Out);
    }

    [Theory]
    [InlineData("card")]
    [InlineData("lens")]
    [InlineData("measure")]
    [InlineData("inspect")]
    [InlineData("report")]
    public void The_help_of_every_command_states_its_exit_codes_and_json(string command)
    {
        ProgramRun run = ProgramRun.Of(command, "--help");

        Assert.Equal(0, run.ExitCode);
        // The help is wrapped: held word by word.
        string words = string.Join(' ', run.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("0 done; 1 wrong arguments, nothing done; 2 a photograph or a comparison was refused, the rest done; 3 a file cannot be read or written or has the wrong form; 4 the program broke down.", words, StringComparison.Ordinal);
        Assert.Contains("--json", words, StringComparison.Ordinal);
        Assert.Contains($"## `edgelens {command}`", Repository.ReadText("docs/commands.md"), StringComparison.Ordinal);
    }

    [Fact]
    public void With_json_a_complaint_is_an_object_too()
    {
        ProgramRun run = ProgramRun.Of("measure", "x.jpg", "--json");

        Assert.Equal(1, run.ExitCode);
        Assert.Equal(1, run.Json.GetProperty("exitCode").GetInt32());
        Assert.Contains("--family", run.Json.GetProperty("error").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--card")]
    [InlineData("--lens")]
    [InlineData("--policy")]
    public void A_setting_file_that_is_missing_or_wrong_ends_with_3(string option)
    {
        using TestFolder folder = new();
        string wrong = folder.Write("wrong.json", "{ \"name\": 1 }");

        ProgramRun missing = ProgramRun.Of("measure", Photograph, "--family", "luxator", option, folder.PathOf("none.json"));
        ProgramRun misformed = ProgramRun.Of("measure", Photograph, "--family", "luxator", option, wrong);

        Assert.Equal((3, 3), (missing.ExitCode, misformed.ExitCode));
        Assert.Contains("none.json", missing.Error, StringComparison.Ordinal);
        Assert.Contains("wrong.json", misformed.Error, StringComparison.Ordinal);
    }
}
