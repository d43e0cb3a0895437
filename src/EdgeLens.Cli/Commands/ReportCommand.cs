using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using EdgeLens.Assessment.Wording;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Reports;
using EdgeLens.Reports.Json;

namespace EdgeLens.Cli.Commands;

/// <summary><c>edgelens report</c>: the report of one working end of a folder as one file, to be sent or kept.</summary>
internal static class ReportCommand
{
    public static Command Create(Terminal terminal, Option<bool> json)
    {
        Argument<string> folder = new("FOLDER") { Description = "Photographs with an index.json (docs/commands.md)." };
        Option<string> instrument = new("--instrument", "-i") { Description = "Which instrument, as the index names it.", HelpName = "ID", Required = true };
        Option<int?> end = new("--working-end") { Description = "Which end of it; needed only when the index lists several.", HelpName = "N" };
        Option<string?> date = new("--date") { Description = "Which inspection; the latest without it.", HelpName = "yyyy-MM-dd" };
        Option<string?> target = new("--out", "-o") { Description = "HTML file to write; may be left out with --json.", HelpName = "FILE" };
        SetupOptions setup = new();
        Command command = new("report", "Measures one working end of a folder again and writes its report as one HTML file; with --json the inspection goes to standard output (docs/inspection-json.md).\n\n" + CommandLine.ExitCodes)
        {
            folder, instrument, end, date, target,
        };
        setup.AddTo(command);
        setup.AddBudgetTo(command);
        command.SetAction(parsed =>
        {
            bool wantsJson = parsed.GetValue(json);
            string? file = parsed.GetValue(target);
            if (file is null && !wantsJson) throw new RimException(ExitCode.WrongArguments, "Give --out FILE, --json, or both.");
            ListedFolder listed = FolderIndex.Read(parsed.GetRequiredValue(folder), setup.CardPath(parsed));
            ListedWorkingEnd chosen = WorkingEnd(listed, parsed.GetRequiredValue(instrument), parsed.GetValue(end));
            ListedInspection day = Day(chosen, parsed.GetValue(date));
            // The others don't bear on this day, but for the one that it is compared with.
            chosen = chosen with { Inspections = [.. chosen.Inspections.Where(d => ReferenceEquals(d, day) || d.IsAsNew)] };
            ListedFolder part = listed with { WorkingEnds = [chosen] };
            InspectedDay seen = setup.Inspector(parsed, listed.Card, terminal, Batch.PhotographCount(part)).Inspect(chosen).Single(d => d.Inspection.Date == day.Date);
            ReportContext context = Batch.Context(listed) with { ShowsBudgets = setup.ShowsBudgets(parsed) };
            if (file is not null) AtomicFile.Write(file, ReportFolder.Html(seen, context));
            terminal.Out.Write(wantsJson ? InspectionJson.Write(seen.Inspection, context) : new BatchResult([new(seen, "", file!)], null, []).ToText());
            return (int)seen.Code;
        });
        return command;
    }

    private static ListedWorkingEnd WorkingEnd(ListedFolder folder, string id, int? end)
    {
        ImmutableArray<ListedWorkingEnd> found = [.. folder.WorkingEnds.Where(e => e.InstrumentId == id && (end is null || e.WorkingEnd == end))];
        return found.Length switch
        {
            1 => found[0],
            0 => throw new RimException(ExitCode.WrongArguments, $"The index has no instrument {id}{(end is null ? "" : FormattableString.Invariant($" with working end {end}"))}; it has {string.Join(", ", folder.WorkingEnds.Select(e => FormattableString.Invariant($"{e.InstrumentId} end {e.WorkingEnd}")))}."),
            _ => throw new RimException(ExitCode.WrongArguments, $"Instrument {id} has the working ends {string.Join(", ", found.Select(e => e.WorkingEnd.ToString(CultureInfo.InvariantCulture)))}: say which by --working-end."),
        };
    }

    private static ListedInspection Day(ListedWorkingEnd end, string? date) => date is null
        ? end.Inspections[^1]
        : end.Inspections.FirstOrDefault(d => DateText.Iso(d.Date) == date)
            ?? throw new RimException(ExitCode.WrongArguments, FormattableString.Invariant($"{end.InstrumentId} end {end.WorkingEnd} has no inspection of {date}; it has {string.Join(", ", end.Inspections.Select(d => DateText.Iso(d.Date)))}."));
}
