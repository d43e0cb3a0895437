using System.CommandLine;
using System.Globalization;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Wording;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Review;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens book find</c>: instruments by code, kind, cassette, state or last verdict, with the rows of their inspections.</summary>
internal static class FindCommand
{
    public static Command Create(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string?> text = new("TEXT") { Description = "Part of the code or description; all without it.", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> family = new("--family", "-f") { Description = "Kind of the working end." }, cassette = new("--cassette") { Description = "What lies in it.", HelpName = "CODE" };
        Option<string?> verdict = new("--verdict") { Description = "Of the last inspection." }, state = new("--state") { Description = "in-use, at-sharpening or retired." };
        family.AcceptOnlyFromAmong([.. FamilyTraits.All.Select(t => t.Name)]);
        verdict.AcceptOnlyFromAmong("keep", "retake", "touch-up", "resharpen", "retire");
        state.AcceptOnlyFromAmong("in-use", "at-sharpening", "retired");
        Command command = new("find", "Finds instruments and shows their inspections.") { text, family, cassette, verdict, state };
        command.Does(parsed =>
        {
            PracticeFile file = PracticeFile.Read(options.Open(parsed, terminal), [], withRetired: true);
            WorkingEndFile[] found =
            [
                .. from end in file.WorkingEnds
                   where parsed.GetValue(text) is not { } part || $"{end.Instrument.Code} {end.Instrument.Description}".Contains(part, StringComparison.OrdinalIgnoreCase)
                   where parsed.GetValue(family) is not { } kind || FamilyTraits.Of(end.End.Family).Name == kind
                   where parsed.GetValue(cassette) is not { } place || end.Cassette == place
                   where parsed.GetValue(verdict) is not { } said || (end.Latest is { } latest && Name(latest) == said)
                   where parsed.GetValue(state) is not { } wanted || StateName(end.State) == wanted
                   select end,
            ];
            if (parsed.GetValue(json)) terminal.Out.Write(ToJson(found));
            else
            {
                foreach (WorkingEndFile end in found)
                {
                    terminal.Out.WriteLine($"{end.Name}: {FamilyTraits.Of(end.End.Family).Title}, {(end.Cassette is { } c ? "cassette " + c : "in no cassette")}, {StateName(end.State)}{(end.Instrument.Description is { } d ? $", {d}" : "")}");
                    foreach (InspectionEntry i in end.Inspections) terminal.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  inspection {i.Id}  {i.Day:yyyy-MM-dd}  {Name(i)}: {i.Headline}{(i.IsAsNew ? " (as new)" : "")}"));
                }
                terminal.Out.WriteLine(found.Length == 1 ? "1 working end." : FormattableString.Invariant($"{found.Length} working ends."));
            }
            return (int)ExitCode.Done;
        });
        return command;
    }

    private static string ToJson(WorkingEndFile[] found) => ConsoleJson.Write(j =>
    {
        j.WriteNumber("exitCode", 0);
        j.WriteStartArray("workingEnds");
        foreach (WorkingEndFile end in found)
        {
            j.WriteStartObject();
            j.WriteString("instrument", end.Instrument.Code);
            j.WriteNumber("end", end.End.End);
            j.WriteString("family", FamilyTraits.Of(end.End.Family).Name);
            j.WriteString("description", end.Instrument.Description);
            j.WriteString("cassette", end.Cassette);
            j.WriteString("state", StateName(end.State));
            j.WriteStartArray("inspections");
            foreach (InspectionEntry i in end.Inspections)
            {
                j.WriteStartObject();
                j.WriteNumber("row", i.Id);
                j.WriteString("day", DateText.Iso(i.Day));
                j.WriteBoolean("isAsNew", i.IsAsNew);
                j.WriteString("verdict", Name(i));
                j.WriteString("headline", i.Headline);
                j.WriteString("programVersion", i.ProgramVersion);
                j.WriteEndObject();
            }
            j.WriteEndArray();
            j.WriteEndObject();
        }
        j.WriteEndArray();
    });

    private static string Name(InspectionEntry inspection) => BookReportCommand.VerdictName(inspection.Verdict);

    private static string StateName(InstrumentState state) => state switch { InstrumentState.Retired => "retired", InstrumentState.AtSharpening => "at-sharpening", _ => "in-use" };
}
