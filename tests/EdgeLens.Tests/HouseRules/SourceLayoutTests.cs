using System.Text.RegularExpressions;
using Xunit;

namespace EdgeLens.Tests.HouseRules;

/// <summary>One folder per concept, one idea per file.</summary>
public sealed partial class SourceLayoutTests
{
    /// <summary>Names that say what kind of thing lies inside, not what it is about: kinds are not places.</summary>
    private static readonly HashSet<string> Kinds = new(StringComparer.OrdinalIgnoreCase)
    {
        "Helpers", "Helper", "Utils", "Utilities", "Util", "Models", "Model", "Interfaces", "Enums", "Extensions", "Common", "Shared", "Misc", "Types", "Primitives",
        "Classes", "Records", "Services", "Managers", "Core", "Base", "Constants",
    };

    /// <summary>Lines; past about this length a file holds a second idea.</summary>
    private const int LongestFile = 300;

    [Fact]
    public void Every_source_folder_is_a_concept() =>
        Violations.MustBeNone(AllSources().SelectMany(source => source.Name.Split('/')[..^1]).Distinct().Where(Kinds.Contains), "Name the folder after what it is about:");

    [Fact]
    public void Every_namespace_is_its_folder() =>
        Violations.MustBeNone(
            from source in AllSources()
            let declared = source.ReadLines().Select(line => FileNamespace().Match(line)).FirstOrDefault(match => match.Success)?.Groups[1].Value
            let expected = string.Join('.', source.Name.Split('/')[1..^1])
            where declared is not null && declared != expected // none: top-level statements
            select $"{source.Name}: namespace {declared}, expected {expected}",
            "A namespace says where the file lies:");

    [Fact]
    public void No_source_file_is_longer_than_one_idea() =>
        Violations.MustBeNone(
            from source in AllSources()
            where !source.Name.Contains("/Migrations/", StringComparison.Ordinal) // written by a tool: the whole schema at that step
            let lines = source.ReadLines().Length
            where lines > LongestFile
            select $"{source.Name}: {lines} lines",
            "Look for the second idea in the file:");

    [Fact]
    public void No_source_file_names_a_folder_of_somebody_s_machine() =>
        Violations.MustBeNone(
            from source in AllSources()
            from line in source.ReadLines()
            where MachinePath().IsMatch(line)
            select $"{source.Name}: {line.Trim()}",
            "Paths are arguments:");

    private static IEnumerable<SourceFile> AllSources() => Repository.Sources().Concat(Repository.Sources("tests"));

    [GeneratedRegex(@"^namespace ([\w.]+);")]
    private static partial Regex FileNamespace();

    [GeneratedRegex(@"""(/(home|tmp|root|Users|mnt|srv|opt)/|[A-Za-z]:\\\\?Users)")]
    private static partial Regex MachinePath();
}
