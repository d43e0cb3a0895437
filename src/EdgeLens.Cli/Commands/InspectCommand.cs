using System.Collections.Immutable;
using System.CommandLine;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Cli.Commands;

/// <summary><c>edgelens inspect</c>: today against as new, for a folder or for the photographs of one working end.</summary>
internal static class InspectCommand
{
    public static Command Create(Terminal terminal, Option<bool> json)
    {
        Argument<string?> folder = new("FOLDER") { Description = "Photographs with an index.json (docs/commands.md): every working end in it is inspected.", Arity = ArgumentArity.ZeroOrOne };
        Option<string> target = new("--out", "-o") { Description = "Folder for the reports: HTML and JSON for each inspection, and index.html.", HelpName = "FOLDER", Required = true };
        Option<string[]> today = new("--today") { Description = "In place of FOLDER: today's face view, and if there is one the toe or side view of the same working end.", HelpName = "FILE", AllowMultipleArgumentsPerToken = true };
        Option<string[]> baseline = new("--baseline") { Description = "With --today: the as-new photographs of the same working end.", HelpName = "FILE", AllowMultipleArgumentsPerToken = true };
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
            if (parsed.GetValue(folder) is null == (Files(today).Length == 0)) throw new RimException(ExitCode.WrongArguments, "Give either a FOLDER or --today FILE.");
            ListedFolder listed = parsed.GetValue(folder) is { } path ? Folder(path) : Photographs(Files(today), Files(baseline));
            BatchResult result = new Batch(setup.Inspector(parsed, listed.Card, terminal, Batch.PhotographCount(listed)), terminal.Error) { ShowsBudgets = setup.ShowsBudgets(parsed) }.Run(listed, parsed.GetRequiredValue(target));
            terminal.Out.Write(parsed.GetValue(json) ? result.ToJson() : result.ToText());
            return (int)result.Code;

            ListedFolder Folder(string path)
            {
                string[] misplaced = [.. known.Given(parsed), .. Files(baseline).Length == 0 ? [] : (string[])["--baseline"]];
                if (misplaced.Length > 0) throw new RimException(ExitCode.WrongArguments, $"{string.Join(", ", misplaced)} belong to --today; for a FOLDER its index says it.");
                return FolderIndex.Read(path, setup.CardPath(parsed));
            }

            ListedFolder Photographs(string[] now, string[] then)
            {
                CardDescription card = setup.Card(parsed);
                ImmutableArray<ListedPhotograph> photographs = known.Photographs(parsed, now, card);
                List<ListedInspection> days = [new(Day(now[0]), false, null, photographs)];
                if (then.Length > 0)
                {
                    ListedPhotograph same = photographs[0];
                    Measured height = new(parsed.GetValue(baselineHeight) ?? same.HeightOverCardMm.Value, same.HeightOverCardMm.StandardUncertainty);
                    days.Insert(0, new(Day(then[0]), true, null, [.. then.Select(path => new ListedPhotograph(path, null, baselineBars.Of(parsed, card) ?? same.Print, height))]));
                }
                return new(null, false, card, [new(known.InstrumentId(parsed, now[0]), known.WorkingEnd(parsed), known.Family(parsed), known.WorkingEdge(parsed), [.. days])]);
            }

            string[] Files(Option<string[]> option) => parsed.GetValue(option) ?? [];

            DateOnly Day(string path) => InputFile.DayWritten(path) ?? terminal.Today;
        });
        return command;
    }
}
