using System.CommandLine;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Imaging.Cards;
using EdgeLens.Reports;
using EdgeLens.Reports.Json;

namespace EdgeLens.Cli.Commands;

/// <summary><c>edgelens measure</c>: one working end as it is today, no baseline.</summary>
internal static class MeasureCommand
{
    public static Command Create(Terminal terminal, Option<bool> json)
    {
        Argument<string[]> photographs = new("PHOTOGRAPH") { Description = "Photographs of one working end: a face view, and if there is one the toe or side view. Which is which the pictures tell.", Arity = ArgumentArity.OneOrMore };
        PhotographOptions known = new();
        SetupOptions setup = new();
        Command command = new("measure", "Measures one working end and judges its edges, without a comparison to as new.\n\n" + CommandLine.ExitCodes) { photographs };
        known.AddTo(command);
        setup.AddTo(command);
        command.SetAction(parsed =>
        {
            string[] paths = parsed.GetRequiredValue(photographs);
            CardDescription card = setup.Card(parsed);
            ListedInspection day = new(InputFile.DayWritten(paths[0]) ?? terminal.Today, false, null, known.Photographs(parsed, paths, card));
            ListedWorkingEnd end = new(known.InstrumentId(parsed, paths[0]), known.WorkingEnd(parsed), known.Family(parsed), known.WorkingEdge(parsed), [day]);
            InspectedDay seen = setup.Inspector(parsed, card, terminal, paths.Length).Inspect(end).Single();
            terminal.Out.Write(parsed.GetValue(json) ? InspectionJson.Write(seen.Inspection, new ReportContext(Terminal.ProgramVersion)) : MeasurementText.Of(seen.Inspection));
            return (int)seen.Code;
        });
        return command;
    }
}
