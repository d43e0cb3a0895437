using System.Collections.Immutable;
using System.CommandLine;
using EdgeLens.Cards;
using EdgeLens.Cards.Sheets;
using EdgeLens.Cards.Tags;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Records.Book;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Instruments;
using EdgeLens.Store;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens book tag</c> gives a tag to a working end, <c>edgelens book tags</c> prints them.</summary>
internal static class TagCommands
{
    public static Command Tag(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> instrument = new("INSTRUMENT");
        Option<int> end = new("--end") { Description = "Which working end.", DefaultValueFactory = _ => 1 };
        Option<int?> number = new("--number") { Description = "Which tag, 1 to 999; the next free one without it." };
        Option<string?> because = new("--because") { Description = "Why the tag, or the end's other tag, is taken from where it is; needed then.", HelpName = "TEXT" };
        Command command = new("tag", "Gives a printed tag to a working end; with --because also one that stands for another.") { instrument, end, number, because };
        command.Does(parsed =>
        {
            RecordBook book = options.Open(parsed, terminal);
            string by = options.By(parsed), code = parsed.GetRequiredValue(instrument);
            IReadOnlyList<EndTag> tags = book.Current<EndTag>();
            int wanted = parsed.GetValue(number) ?? Free(tags).First();
            EndTag tag = new() { By = by, Instrument = code, End = parsed.GetValue(end), Number = wanted };
            EndTag[] inTheWay = parsed.GetValue(because) is null ? [] : [.. tags.Where(t => t.Number == wanted || (t.Instrument == code && t.End == tag.End))];
            Entry[] rows = [.. inTheWay.Select(t => t with { By = by, Corrects = t.Id, CorrectionReason = parsed.GetValue(because), IsWithdrawal = true }), tag];
            return BookCommand.Entered(terminal, parsed.GetValue(json), book.Append(rows)[^1], $"{EntryRules.Key(code, tag.End)} has the tag {wanted}");
        });
        return command;
    }

    public static Command Tags(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Option<string> target = new("--out", "-o") { Description = "File to write: .pdf (best to print from) or .png (one sheet).", HelpName = "FILE", Required = true };
        Option<string?> cassette = new("--cassette") { Description = "Only what lies in it.", HelpName = "CODE" }, instrument = new("--instrument") { Description = "Only this one.", HelpName = "CODE" };
        Option<string> paper = new("--paper") { Description = "Paper.", DefaultValueFactory = _ => "a4" };
        paper.AcceptOnlyFromAmong(StringComparer.OrdinalIgnoreCase, [.. PaperSize.All.Select(p => p.Name.ToLowerInvariant())]);
        Command command = new("tags", "Prints tags for the working ends in use; those that have none get the next free number.") { target, cassette, instrument, paper };
        command.Does(parsed =>
        {
            string file = parsed.GetRequiredValue(target), ending = Path.GetExtension(file).ToLowerInvariant();
            if (ending is not (".pdf" or ".png")) throw new RimException(ExitCode.WrongArguments, $"{file}: the file's name must end in .pdf or .png.");
            OpenCvRuntime.Require();
            RecordBook book = options.Open(parsed, terminal);
            PaperSize sheet = PaperSize.All.Single(p => p.Name.Equals(parsed.GetRequiredValue(paper), StringComparison.OrdinalIgnoreCase));
            WorkingEnd[] ends = [.. EndsInUse(book, parsed.GetValue(cassette)).Where(e => parsed.GetValue(instrument) is not { } only || e.Instrument == only)];
            if (ends.Length == 0) throw new RimException(ExitCode.WrongArguments, "No working end in use fits: there is nothing to print.");
            if (ending == ".png" && ends.Length > TagDrawing.Room(sheet)) throw new RimException(ExitCode.WrongArguments, $"{ends.Length} tags do not fit on one sheet ({TagDrawing.Room(sheet)}): write a .pdf.");
            ImmutableArray<EndTag> tags = WithTags(book, ends, () => options.By(parsed));
            ImmutableArray<TagLabel> labels = [.. tags.Select(t => new TagLabel(t.Number, EntryRules.Key(t.Instrument, t.End)))];
            if (ending == ".pdf") AtomicFile.Write(file, stream => TagDrawing.WritePdf(stream, labels, sheet));
            else AtomicFile.Write(file, stream => stream.Write(TagDrawing.ToPng(labels, sheet)));
            terminal.Out.Write(parsed.GetValue(json) ? ToJson(tags) : string.Concat(tags.Select(t => FormattableString.Invariant($"tag {t.Number}: {EntryRules.Key(t.Instrument, t.End)}\n"))));
            return (int)ExitCode.Done;
        });
        return command;
    }

    /// <summary>The ends' tags; ends without one get theirs in one step. Only then is it asked who enters them.</summary>
    private static ImmutableArray<EndTag> WithTags(RecordBook book, WorkingEnd[] ends, Func<string> by)
    {
        IReadOnlyList<EndTag> there = book.Current<EndTag>();
        Dictionary<(string, int), EndTag> byEnd = there.ToDictionary(t => (t.Instrument, t.End));
        WorkingEnd[] without = [.. ends.Where(e => !byEnd.ContainsKey((e.Instrument, e.End)))];
        int[] free = [.. Free(there).Take(without.Length)];
        if (free.Length < without.Length) throw new RimException(ExitCode.WrongArguments, $"There are {EndTag.GreatestNumber} tags and no more: take back those of retired instruments (`book withdraw tag`).");
        string code = without.Length == 0 ? "" : by();
        foreach (EndTag made in book.Append([.. without.Zip(free).Select(p => new EndTag { By = code, Instrument = p.First.Instrument, End = p.First.End, Number = p.Second })]).Cast<EndTag>()) byEnd[(made.Instrument, made.End)] = made;
        return [.. ends.Select(e => byEnd[(e.Instrument, e.End)])];
    }

    private static IEnumerable<int> Free(IReadOnlyList<EndTag> tags) => Enumerable.Range(1, EndTag.GreatestNumber).Except(tags.Select(t => t.Number));

    private static IEnumerable<WorkingEnd> EndsInUse(RecordBook book, string? cassette)
    {
        HashSet<string> retired = [.. book.Current<StateChange>().GroupBy(s => s.Instrument).Select(g => g.OrderBy(s => s.Day).ThenBy(s => s.Id).Last()).Where(s => s.State == InstrumentState.Retired).Select(s => s.Instrument)];
        Dictionary<string, string?> places = book.Current<Placement>().GroupBy(p => p.Instrument).ToDictionary(g => g.Key, g => g.OrderBy(p => p.Day).ThenBy(p => p.Id).Last().Cassette);
        return book.Current<WorkingEnd>().Where(e => !retired.Contains(e.Instrument) && (cassette is null || places.GetValueOrDefault(e.Instrument) == cassette)).OrderBy(e => e.Instrument, StringComparer.Ordinal).ThenBy(e => e.End);
    }

    private static string ToJson(ImmutableArray<EndTag> tags) => ConsoleJson.Write(json =>
    {
        json.WriteNumber("exitCode", (int)ExitCode.Done);
        json.WriteStartArray("tags");
        foreach (EndTag tag in tags)
        {
            json.WriteStartObject();
            json.WriteNumber("number", tag.Number);
            json.WriteString("instrument", tag.Instrument);
            json.WriteNumber("end", tag.End);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    });
}
