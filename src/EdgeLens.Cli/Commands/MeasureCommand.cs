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

/// <summary><c>edgelens measure</c>: one photograph, no baseline.</summary>
internal static class MeasureCommand
{
    public static Command Create(Terminal terminal, Option<bool> json)
    {
        Argument<string> photograph = new("PHOTOGRAPH") { Description = "A face view: the working end in the card's window, seen from square above its face." };
        PhotographOptions known = new();
        SetupOptions setup = new();
        Command command = new("measure", "Measures the working end in one photograph and judges its edges, without a comparison to as new.\n\n" + CommandLine.ExitCodes) { photograph };
        known.AddTo(command);
        setup.AddTo(command);
        command.SetAction(parsed =>
        {
            string path = parsed.GetRequiredValue(photograph);
            CardDescription card = setup.Card(parsed);
            ListedPhotograph listed = new(path, View.Face, known.Bars.Of(parsed, card), known.HeightOverCardMm(parsed));
            ListedInspection day = new(InputFile.DayWritten(path) ?? terminal.Today, false, null, [listed]);
            ListedWorkingEnd end = new(known.InstrumentId(parsed, path), known.WorkingEnd(parsed), known.Family(parsed), known.WorkingEdge(parsed), [day]);
            InspectedDay seen = setup.Inspector(parsed, card, terminal, 1).Inspect(end).Single();
            terminal.Out.Write(parsed.GetValue(json) ? InspectionJson.Write(seen.Inspection, new ReportContext(Terminal.ProgramVersion)) : MeasurementText.Of(seen.Inspection));
            return (int)seen.Code;
        });
        return command;
    }
}
