using System.CommandLine;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Cli.Commands;

/// <summary><c>edgelens inspect</c>: today against as new, for a folder or for two photographs.</summary>
internal static class InspectCommand
{
    public static Command Create(Terminal terminal, Option<bool> json)
    {
        Argument<string?> folder = new("FOLDER") { Description = "Photographs with an index.json (docs/commands.md): every working end in it is inspected.", Arity = ArgumentArity.ZeroOrOne };
        Option<string> target = new("--out", "-o") { Description = "Folder for the reports: HTML and JSON for each inspection, and index.html.", HelpName = "FOLDER", Required = true };
        Option<string?> today = new("--today") { Description = "In place of FOLDER: today's face view.", HelpName = "FILE" };
        Option<string?> baseline = new("--baseline") { Description = "With --today: the as-new face view of the same working end.", HelpName = "FILE" };
        BarOptions baselineBars = new("baseline-", "the card in the as-new photograph, where it is another print");
        Option<double?> baselineHeight = new("--baseline-height") { Description = "Height of the face over the card in the as-new photograph; as --height without it.", HelpName = "mm" };
        PhotographOptions known = new();
        SetupOptions setup = new();
        Command command = new("inspect", "Measures working ends, compares each with its as-new photograph, judges it and writes a report.\n\n" + CommandLine.ExitCodes) { folder, target, today, baseline };
        known.AddTo(command);
        baselineBars.AddTo(command);
        command.Options.Add(baselineHeight);
        setup.AddTo(command);
        setup.AddBudgetTo(command);
        command.SetAction(parsed =>
        {
            if (parsed.GetValue(folder) is null == parsed.GetValue(today) is null) throw new RimException(ExitCode.WrongArguments, "Give either a FOLDER or --today FILE.");
            ListedFolder listed = parsed.GetValue(folder) is { } path ? Folder(path) : Pair(parsed.GetValue(today)!);
            BatchResult result = new Batch(setup.Inspector(parsed, listed.Card, terminal, Batch.PhotographCount(listed)), terminal.Error) { ShowsBudgets = setup.ShowsBudgets(parsed) }.Run(listed, parsed.GetRequiredValue(target));
            terminal.Out.Write(parsed.GetValue(json) ? result.ToJson() : result.ToText());
            return (int)result.Code;

            ListedFolder Folder(string path)
            {
                string[] misplaced = [.. known.Given(parsed), .. parsed.GetValue(baseline) is null ? [] : (string[])["--baseline"]];
                if (misplaced.Length > 0) throw new RimException(ExitCode.WrongArguments, $"{string.Join(", ", misplaced)} belong to --today; for a FOLDER its index says it.");
                return FolderIndex.Read(path, setup.CardPath(parsed));
            }

            ListedFolder Pair(string path)
            {
                CardDescription card = setup.Card(parsed);
                Measured height = known.HeightOverCardMm(parsed);
                ListedInspection now = new(Day(path), false, null, [new(path, View.Face, known.Bars.Of(parsed, card), height)]);
                List<ListedInspection> days = [now];
                if (parsed.GetValue(baseline) is { } asNew)
                    days.Insert(0, new(Day(asNew), true, null,
                        [new(asNew, View.Face, baselineBars.Of(parsed, card) ?? known.Bars.Of(parsed, card), new(parsed.GetValue(baselineHeight) ?? height.Value, height.StandardUncertainty))]));
                return new(null, false, card, [new(known.InstrumentId(parsed, path), known.WorkingEnd(parsed), known.Family(parsed), known.WorkingEdge(parsed), [.. days])]);
            }

            DateOnly Day(string path) => InputFile.DayWritten(path) ?? terminal.Today;
        });
        return command;
    }
}
