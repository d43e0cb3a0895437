using System.CommandLine;
using EdgeLens.Cli.Commands;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Store;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens book remeasure</c>: this version of the program, over all kept photographs. The older figures stay; each says which version gave it.</summary>
internal static class RemeasureCommand
{
    public static Command Create(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string?> instrument = new("INSTRUMENT") { Description = "One instrument; all without it.", Arity = ArgumentArity.ZeroOrOne };
        Option<bool> again = new("--again") { Description = "Also what this version has measured by the same limits already (another lens profile or card)." };
        SetupOptions setup = new();
        Command command = new("remeasure", "Measures kept photographs again with this version of the program, so that a trend is of one version.") { instrument, again };
        setup.AddTo(command);
        command.Does(parsed =>
        {
            RecordBook book = options.Open(parsed, terminal);
            string by = options.By(parsed);
            Practice? practice = book.Current<Practice>().SingleOrDefault();
            Assessment.Policies.Policy policy = setup.Policy(parsed);
            BookInspector inspector = new(book, policy, new(Terminal.ProgramVersion, practice?.Name, practice?.IsDemo ?? false));
            WorkingEnd[] ends = [.. book.Current<WorkingEnd>().Where(e => parsed.GetValue(instrument) is not { } one || e.Instrument == one).OrderBy(e => e.Instrument, StringComparer.Ordinal).ThenBy(e => e.End)];
            int measured = 0, left = 0;
            ExitCode code = ExitCode.Done;
            foreach (WorkingEnd end in ends)
            {
                (InspectionEntry Row, ListedInspection Day)[] kept =
                [
                    .. book.CurrentOf<InspectionEntry>(end.Instrument).Where(i => i.End == end.End).GroupBy(i => i.Occasion).Select(g => g.MaxBy(i => i.Id)!)
                        .OrderBy(i => i.When).Select(i => (i, Day: inspector.Kept(i))).Where(p => p.Day is not null).Select(p => (p.i, p.Day!)),
                ];
                bool IsWanted(InspectionEntry row) => parsed.GetValue(again) || row.ProgramVersion != Terminal.ProgramVersion || row.PolicyFingerprint != PolicyFingerprint.Of(policy, end.Family);
                left += kept.Count(k => !IsWanted(k.Row));
                if (!kept.Any(k => IsWanted(k.Row))) continue;
                // Of several as-new inspections only the last is compared with.
                ListedInspection? asNew = kept.LastOrDefault(k => k.Row.IsAsNew).Day;
                ListedWorkingEnd listed = BookInspector.Listed(end, kept.Select(k => k.Day with { IsAsNew = ReferenceEquals(k.Day, asNew) }));
                foreach ((InspectedDay seen, InspectionEntry row) in setup.Inspector(parsed, setup.Card(parsed), terminal, kept.Length).Inspect(listed).Zip(kept.Select(k => k.Row)).ToList())
                {
                    if (!IsWanted(row)) continue;
                    NewInspection found = inspector.Found(seen, by, row.Time, row.Origin, [.. book.Photographs(row.Id).Select(p => new NewPhotograph(p, null))], row.Occasion);
                    book.Append(found with { Entry = found.Entry with { IsAsNew = row.IsAsNew, Note = row.Note } });
                    measured++;
                    code = (ExitCode)Math.Max((int)code, (int)seen.Code);
                }
            }
            terminal.Out.Write(parsed.GetValue(json)
                ? ConsoleJson.Write(j =>
                {
                    j.WriteNumber("exitCode", (int)code);
                    j.WriteNumber("measured", measured);
                    j.WriteNumber("measuredAlready", left);
                })
                : FormattableString.Invariant($"{measured} inspections measured by EdgeLens {Terminal.ProgramVersion}; {left} were already.\n"));
            return (int)code;
        });
        return command;
    }
}
