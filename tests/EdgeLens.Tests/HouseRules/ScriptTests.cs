using System.Text.RegularExpressions;
using Xunit;

namespace EdgeLens.Tests.HouseRules;

/// <summary>What README and DEVELOPERS tell a newcomer to run must be there and runnable.</summary>
public sealed partial class ScriptTests
{
    [Theory]
    [InlineData("setup.sh")]
    [InlineData("demo.sh")]
    [InlineData("test.sh")]
    [InlineData("edgelens")]
    [InlineData(".ci/run")]
    public void A_script_can_be_started(string script)
    {
        Assert.True(File.Exists(Repository.PathOf(script)), $"{script} is missing.");
        Assert.StartsWith("#!/usr/bin/env bash\n", Repository.ReadText(script), StringComparison.Ordinal);
        if (!OperatingSystem.IsWindows()) Assert.True(File.GetUnixFileMode(Repository.PathOf(script)).HasFlag(UnixFileMode.UserExecute), $"{script} is not executable.");
    }

    [Theory]
    [InlineData("README.md")]
    [InlineData("DEVELOPERS.md")]
    public void Every_command_in_a_page_names_a_file_that_exists(string page)
    {
        string[] commands = [.. ShellLines(page)];
        Assert.NotEmpty(commands);
        foreach (string command in commands)
            foreach (Match match in RepositoryPath().Matches(command))
                Assert.True(Path.Exists(Repository.PathOf(match.Groups[1].Value)), $"{page}: `{command}` names {match.Groups[1].Value}, which does not exist.");
    }

    [Theory]
    [InlineData("README.md")]
    [InlineData("DEVELOPERS.md")]
    public void Every_link_in_a_page_leads_to_a_file(string page)
    {
        foreach (Match link in Link().Matches(Repository.ReadText(page)))
            if (!link.Groups[1].Value.Contains("://", StringComparison.Ordinal))
                Assert.True(Path.Exists(Repository.PathOf(link.Groups[1].Value)), $"{page} links to {link.Groups[1].Value}, which does not exist.");
    }

    private static IEnumerable<string> ShellLines(string page)
    {
        foreach (Match block in ShellBlock().Matches(Repository.ReadText(page)))
            foreach (string line in block.Groups[1].Value.Split('\n', StringSplitOptions.RemoveEmptyEntries))
                yield return line;
    }

    [GeneratedRegex(@"```sh\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex ShellBlock();

    /// <summary>Scripts at the root, and folders of the repository.</summary>
    [GeneratedRegex(@"(?:^|\s)(?:\./)?((?:setup\.sh|demo\.sh|test\.sh|edgelens|\.ci/run)|(?:src|tests|demo-images|calibration|docs)(?:/[\w./-]+)?)(?=\s|$)")]
    private static partial Regex RepositoryPath();

    [GeneratedRegex(@"\]\(([^)#\s]+)(?:#[^)]*)?\)")]
    private static partial Regex Link();
}
