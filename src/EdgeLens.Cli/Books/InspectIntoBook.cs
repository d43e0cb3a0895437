using System.Collections.Immutable;
using System.CommandLine;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Cli.Commands;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Store;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens book inspect</c>: photographs of an instrument that the book knows, measured against its kept as-new photographs, and kept.</summary>
internal static class InspectIntoBook
{
    public static Command Create(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> instrument = new("INSTRUMENT") { Description = "Which one; with --from-tag the face view." };
        Argument<string?> face = new("PHOTO") { Description = "The face view.", Arity = ArgumentArity.ZeroOrOne };
        Option<bool> fromTag = new("--from-tag") { Description = "The tag in the face view says which working end it is." };
        Option<string?> toe = new("--toe") { Description = "The toe view.", HelpName = "FILE" }, side = new("--side") { Description = "The side view.", HelpName = "FILE" };
        Option<int> end = new("--end") { Description = "Which working end.", DefaultValueFactory = _ => 1 };
        Option<bool> asNew = new("--as-new") { Description = "The baseline that later inspections are compared with." };
        Option<string?> day = new("--day") { Description = "When it was photographed; without it the day of the file.", HelpName = "yyyy-MM-dd" }, time = new("--time") { HelpName = "HH:mm", Description = "Where the order within the day matters." };
        Option<string?> note = new("--note") { Description = "What you see." };
        Option<double?> height = new("--height") { Description = "Height of the face over the card; 0 without it.", HelpName = "mm" }, limit = new("--height-limit") { Description = "The height is within ± this; 1.5 without it.", HelpName = "mm" };
        BarOptions bars = new("", "the card");
        SetupOptions setup = new();
        Command command = new("inspect", "Measures photographs of an instrument of the book and keeps photographs, figures and verdict.") { instrument, face, fromTag, toe, side, end, asNew, day, time, note, height, limit };
        bars.AddTo(command);
        setup.AddTo(command);
        command.Does(parsed =>
        {
            RecordBook book = options.Open(parsed, terminal);
            bool byTag = parsed.GetValue(fromTag);
            if (byTag == (parsed.GetValue(face) is not null)) throw new RimException(ExitCode.WrongArguments, byTag ? "--from-tag takes the photograph alone: the tag says which instrument." : "Name the instrument and its photograph, or the photograph with --from-tag.");
            if (byTag && parsed.GetResult(end) is { Implicit: false }) throw new RimException(ExitCode.WrongArguments, "--from-tag and --end exclude each other: the tag says which end.");
            string by = options.By(parsed), path = byTag ? parsed.GetRequiredValue(instrument) : parsed.GetValue(face)!;
            Imaging.Cards.CardDescription card = setup.Card(parsed);
            Imaging.Calibration.PrintMeasurement? print = bars.Of(parsed, card);
            WorkingEnd known = byTag ? EndOfTag(book, setup.Reader(parsed, card, terminal), new(path, null, print, default)) : book.CurrentOf<WorkingEnd>(parsed.GetRequiredValue(instrument)).FirstOrDefault(e => e.End == parsed.GetValue(end))
                ?? throw new RimException(ExitCode.WrongArguments, $"The book has no {parsed.GetValue(instrument)} with working end {parsed.GetValue(end)}. `book add instrument` adds it.");
            Measured heightMm = new(parsed.GetValue(height) ?? 0, Quadrature.FromLimits(parsed.GetValue(limit) ?? FolderIndex.UsualHeightLimitMm));
            (string? Path, PhotographView View)[] given = [(path, PhotographView.Face), (parsed.GetValue(toe), PhotographView.Toe), (parsed.GetValue(side), PhotographView.Side)];
            ImmutableArray<NewPhotograph> photographs = [.. given.Where(g => g.Path is not null).Select((g, i) => BookInspector.New(g.Path!, g.View, i, print?.BarXMm.Value, print?.BarYMm.Value, heightMm))];
            ListedInspection today = new(
                BookOptions.Day(parsed.GetValue(day), InputFile.DayWritten(path) ?? terminal.Today), parsed.GetValue(asNew), parsed.GetValue(note),
                [.. photographs.Zip(given.Where(g => g.Path is not null)).Select(p => BookInspector.Listed(p.First.Row, p.Second.Path!))]);
            Practice? practice = book.Current<Practice>().SingleOrDefault();
            BookInspector inspector = new(book, setup.Policy(parsed), new(Terminal.ProgramVersion, practice?.Name, practice?.IsDemo ?? false));
            ListedInspection? baseline = today.IsAsNew || inspector.AsNew(known) is not { } first ? null : inspector.Kept(first);
            ListedWorkingEnd listed = BookInspector.Listed(known, baseline is null ? [today] : [baseline, today]);
            InspectedDay seen = setup.Inspector(parsed, card, terminal, listed.Inspections.Length).Inspect(listed)[^1];
            InspectionEntry entered = book.Append(inspector.Found(seen, by, BookOptions.Time(parsed.GetValue(time)), practice?.IsDemo == true ? FigureOrigin.RenderedPhotographs : FigureOrigin.Photographs, photographs));
            Tell(terminal, parsed.GetValue(json), entered, seen);
            return (int)seen.Code;
        });
        return command;
    }

    /// <exception cref="RimException">The photograph cannot be read, shows no card, or its tag does not say whose it is.</exception>
    private static WorkingEnd EndOfTag(RecordBook book, ViewReader reader, ListedPhotograph photograph)
    {
        try
        {
            if (!reader.Open(photograph).TryGet(out OpenedPhotograph? opened, out Refusal? refusal)) throw new RimException(ExitCode.Refused, $"{photograph.Path}: {refusal}");
            using (opened)
            {
                if (!opened.Calibration.TryGet(out _, out refusal)) throw new RimException(ExitCode.Refused, $"{photograph.Path}: {refusal}");
                return EndFromTag.Decide(book, null, opened.ReadTags()).TryGet(out TaggedEnd? found, out refusal) ? found.End : throw new RimException(ExitCode.Refused, $"{photograph.Path}: {refusal}");
            }
        }
        catch (PhotographUnreadableException e)
        {
            throw new RimException(ExitCode.File, e.Message, e);
        }
    }

    private static void Tell(Terminal terminal, bool json, InspectionEntry entered, InspectedDay seen) => terminal.Out.Write(json
        ? ConsoleJson.Write(j =>
        {
            j.WriteNumber("exitCode", (int)seen.Code);
            j.WriteNumber("row", entered.Id);
            j.WriteString("verdict", seen.Inspection.Verdict.KindName);
            j.WriteString("headline", entered.Headline);
        })
        : FormattableString.Invariant($"{entered.Instrument} end {entered.End}, {entered.Day:yyyy-MM-dd}: {entered.Headline} (inspection {entered.Id})\n  {entered.Reasons.Replace("\n", "\n  ", StringComparison.Ordinal)}\n"));
}
