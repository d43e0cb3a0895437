namespace EdgeLens.Tests.HouseRules;

/// <summary>The checked-out project, found from the test's own place by walking up to the solution file.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    public static string PathOf(string relative) => Path.Combine(Root, relative);

    public static string ReadText(string relative) => File.ReadAllText(PathOf(relative));

    /// <summary>Every C# source under a folder of the repository, without build products, in a fixed order.</summary>
    public static IEnumerable<SourceFile> Sources(string folder = "src") =>
        Directory.EnumerateFiles(PathOf(folder), "*.cs", SearchOption.AllDirectories)
            .Select(path => new SourceFile(Path.GetRelativePath(Root, path).Replace('\\', '/'), path))
            .Where(source => !source.Name.Split('/').Any(part => part is "bin" or "obj"))
            .OrderBy(source => source.Name, StringComparer.Ordinal);

    private static string FindRoot()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "EdgeLens.sln"))) return folder.FullName;
        throw new DirectoryNotFoundException($"No EdgeLens.sln above {AppContext.BaseDirectory}: the house rules are checked inside the repository.");
    }
}

/// <summary>One source file.</summary>
/// <param name="Name">From the repository's root, with forward slashes.</param>
/// <param name="FullPath">On this machine.</param>
internal sealed record SourceFile(string Name, string FullPath)
{
    public string[] ReadLines() => File.ReadAllLines(FullPath);
}
