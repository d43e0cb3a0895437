using System.Text.RegularExpressions;
using System.Xml.Linq;
using Xunit;

namespace EdgeLens.Tests.HouseRules;

/// <summary>Dependencies point inward. The table of layers in DEVELOPERS.md is the rule; project files and compiled code are held against it.</summary>
public sealed partial class LayerTests
{
    private static readonly IReadOnlyDictionary<string, Layer> Layers = ReadTable();

    [Fact]
    public void The_table_of_layers_names_every_project_and_no_other() =>
        Assert.Equal(Directory.EnumerateDirectories(Repository.PathOf("src")).Select(Path.GetFileName).Order(StringComparer.Ordinal), Layers.Keys.Order(StringComparer.Ordinal));

    [Fact]
    public void Each_project_refers_only_to_the_layers_that_the_table_gives_it()
    {
        foreach ((string project, Layer layer) in Layers)
        {
            IEnumerable<string> referred = References(project, "ProjectReference").Select(path => Path.GetFileNameWithoutExtension(path.Replace('\\', '/')));
            Assert.Equal(layer.Uses.Order(StringComparer.Ordinal), referred.Order(StringComparer.Ordinal));
        }
    }

    [Fact]
    public void Compiled_code_uses_no_library_outside_its_layer() =>
        Violations.MustBeNone(
            from assembly in CompiledAssembly.Shipped
            let project = assembly.Name == "edgelens" ? "EdgeLens.Cli" : assembly.Name
            let allowed = Reachable(project).Concat(Layers[project].Libraries).ToHashSet()
            from stranger in assembly.ReferencedAssemblies
            where !IsFramework(stranger) && !allowed.Contains(stranger)
            select $"{project} uses {stranger}",
            "Move the code to the layer that may, or change the table of layers in DEVELOPERS.md with a reason:");

    [Theory]
    [InlineData("EdgeLens.Geometry")]
    [InlineData("EdgeLens.Assessment")]
    [InlineData("EdgeLens.Reports")]
    public void Geometry_assessment_and_reports_know_no_pictures_library(string project)
    {
        string[] pictures = ["OpenCvSharp", "SixLabors.ImageSharp", "SkiaSharp"];
        Assert.Empty(Compiled(project).ReferencedAssemblies.Intersect(pictures));
        Assert.Empty(Layers[project].Libraries.Intersect(pictures));
    }

    [Theory]
    [InlineData("EdgeLens.Geometry")]
    [InlineData("EdgeLens.Assessment")]
    public void Geometry_and_assessment_touch_neither_disk_nor_console(string project) =>
        Violations.MustBeNone(
            Compiled(project).UsedTypes.Intersect(["System.Console", "System.IO.File", "System.IO.FileInfo", "System.IO.FileStream", "System.IO.Directory", "System.IO.DirectoryInfo"]),
            "Files and console belong to the rim:");

    private static CompiledAssembly Compiled(string project) => CompiledAssembly.Shipped.Single(assembly => assembly.Name == project);

    private static bool IsFramework(string name) => name == "netstandard" || (name.StartsWith("System.", StringComparison.Ordinal) && name != "System.CommandLine");

    /// <summary>A layer sees through the layers it uses: Measuring refers to Imaging and with it to Geometry.</summary>
    private static HashSet<string> Reachable(string project) => [.. Layers[project].Uses, .. Layers[project].Uses.SelectMany(Reachable)];

    private static IEnumerable<string> References(string project, string kind) =>
        XDocument.Load(Repository.PathOf($"src/{project}/{project}.csproj")).Descendants(kind).Select(element => element.Attribute("Include")!.Value);

    /// <summary>Rows "| `EdgeLens.X` | what | uses `Y`, `Z` | libraries `L` |".</summary>
    private static Dictionary<string, Layer> ReadTable() =>
        Repository.ReadText("DEVELOPERS.md").Split('\n')
            .Where(line => line.StartsWith("| `EdgeLens.", StringComparison.Ordinal))
            .Select(line => line.Trim().Trim('|').Split('|'))
            .ToDictionary(cells => Names(cells[0]).Single(), cells => new Layer([.. Names(cells[2]).Select(name => "EdgeLens." + name)], [.. Names(cells[3])]));

    private static IEnumerable<string> Names(string cell) => CodeSpan().Matches(cell).Select(match => match.Groups[1].Value);

    [GeneratedRegex("`([^`]+)`")]
    private static partial Regex CodeSpan();

    private sealed record Layer(string[] Uses, string[] Libraries);
}
