using System.CommandLine;
using EdgeLens.Accuracy.Printing;
using EdgeLens.Accuracy.Running;
using EdgeLens.Accuracy.Truth;

const int wrongArguments = 1, wrongFolder = 2, crashed = 3;

Argument<string> folder = new("FOLDER") { Description = "A set of photographs with truth: index.json, card.json and *.truth.json beside the photographs." };
Option<string?> json = new("--json") { Description = "Also write the result to this file.", HelpName = "FILE" };
Option<bool> each = new("--each") { Description = "Also print the rows of each photograph." };
RootCommand command = new("Runs the program on every photograph of a set and compares what it says with the truth. Exit codes: 0 the set was run, 1 wrong arguments, 2 the folder is not such a set, 3 the program broke down on a photograph.")
{
    folder, json, each,
};
command.SetAction(parsed =>
{
    try
    {
        int done = 0;
        BenchRun run = new Bench(DatasetReader.Open(parsed.GetRequiredValue(folder)), file => Console.Error.WriteLine(FormattableString.Invariant($"{++done,3} {file}"))).Run();
        BenchTable.Write(Console.Out, run, parsed.GetValue(each));
        if (parsed.GetValue(json) is { } path)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(path))!);
            File.WriteAllText(path, BenchJson.Write(run));
        }
        foreach ((string file, EdgeLens.Geometry.Figures.Refusal crash) in run.Crashes) Console.Error.WriteLine($"{file}: the program broke down: {crash.Reason}\n{crash.Advice}");
        return run.Crashes.Length > 0 ? crashed : 0;
    }
    catch (DatasetException e)
    {
        Console.Error.WriteLine(e.Message);
        return wrongFolder;
    }
});
ParseResult arguments = command.Parse(args);
int code = arguments.Invoke();
return arguments.Errors.Count > 0 ? wrongArguments : code;
