using System.CommandLine;
using EdgeLens.Assessment.Sharpening;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Imaging.Cards;
using EdgeLens.Reports;
using EdgeLens.Reports.Json;

namespace EdgeLens.Cli.Commands;

/// <summary><c>edgelens sharpened</c>: what a sharpening did to a working end, and whether it is finished.</summary>
internal static class SharpenedCommand
{
    public static Command Create(Terminal terminal, Option<bool> json)
    {
        Option<string[]> before = new("--before") { Description = "Photographs from before: a face view, and if there is one the toe or side view.", HelpName = "FILE", Required = true, AllowMultipleArgumentsPerToken = true };
        Option<string[]> after = new("--after") { Description = "The same working end after sharpening, cleaned.", HelpName = "FILE", Required = true, AllowMultipleArgumentsPerToken = true };
        PhotographOptions known = new();
        SetupOptions setup = new();
        Command command = new("sharpened", "Compares a working end before and after sharpening: radius of the edges, steel taken off, angles, and where to go on.\n\n" + CommandLine.ExitCodes) { before, after };
        known.AddTo(command);
        setup.AddTo(command);
        command.SetAction(parsed =>
        {
            string[] then = parsed.GetRequiredValue(before), now = parsed.GetRequiredValue(after);
            CardDescription card = setup.Card(parsed);
            ListedInspection[] days = [Day(then, isFirst: true), Day(now, isFirst: false)];
            ListedWorkingEnd end = new(known.InstrumentId(parsed, now[0]), known.WorkingEnd(parsed), known.Family(parsed), known.WorkingEdge(parsed), [.. days]);
            // The photograph from before stands where the as-new one stands else: what is compared is the same.
            InspectedDay seen = setup.Inspector(parsed, card, terminal, then.Length + now.Length).Inspect(end)[^1];
            terminal.Out.Write(parsed.GetValue(json) ? InspectionJson.Write(seen.Inspection, new ReportContext(Terminal.ProgramVersion)) : SharpeningText.Of(seen.Inspection, SharpeningResult.Of(seen.Inspection)));
            return (int)seen.Code;

            ListedInspection Day(string[] paths, bool isFirst) => new(InputFile.DayWritten(paths[0]) ?? terminal.Today, isFirst, null, known.Photographs(parsed, paths, card));
        });
        return command;
    }
}
