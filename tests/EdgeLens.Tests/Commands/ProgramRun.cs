using System.Text.Json;
using EdgeLens.Cli.Commands;
using EdgeLens.Cli.Rim;

namespace EdgeLens.Tests.Commands;

/// <summary>The program run through its entry, in this process.</summary>
internal sealed record ProgramRun(int ExitCode, string Out, string Error)
{
    /// <summary>Standard output as JSON; throws when it is anything else.</summary>
    public JsonElement Json => JsonElement.Parse(Out);

    public static ProgramRun Of(params string[] args)
    {
        using StringWriter output = new(), error = new();
        int code = CommandLine.Run(args, new Terminal(output, error, TimeProvider.System));
        return new(code, output.ToString(), error.ToString());
    }
}

/// <summary>A folder of one test, gone after it.</summary>
internal sealed class TestFolder : IDisposable
{
    public string Root { get; } = Directory.CreateTempSubdirectory("edgelens-test-").FullName;

    public string PathOf(string name) => Path.Combine(Root, name);

    public string Write(string name, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(PathOf(name))!);
        File.WriteAllText(PathOf(name), text);
        return PathOf(name);
    }

    public string[] Files(string folder = "") => Directory.Exists(PathOf(folder)) ? [.. Directory.EnumerateFiles(PathOf(folder), "*", new EnumerationOptions { AttributesToSkip = 0 }).Select(Path.GetFileName).OfType<string>().Order(StringComparer.Ordinal)] : [];

    public void Dispose() => Directory.Delete(Root, recursive: true);
}
