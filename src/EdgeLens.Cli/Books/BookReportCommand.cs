using System.CommandLine;
using System.Globalization;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Wording;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.PracticeReports.Content;
using EdgeLens.PracticeReports.Html;
using EdgeLens.PracticeReports.Pdf;
using EdgeLens.PracticeReports.Reports;
using EdgeLens.Records.Review;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens book review</c> and <c>edgelens book report</c>.</summary>
internal static class BookReportCommand
{
    public static string VerdictName(VerdictKind kind) => kind switch
    {
        VerdictKind.Keep => "keep",
        VerdictKind.Retake => "retake",
        VerdictKind.TouchUp => "touch-up",
        VerdictKind.Resharpen => "resharpen",
        _ => "retire",
    };

    public static Command Review(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Written written = new();
        Command command = new("review", "What the practice has to do, the most urgent first, with reasons, days and costs: on the console, and as a report with --out.");
        written.AddTo(command);
        command.Does(parsed =>
        {
            ReportSource source = written.Source(parsed, terminal, options);
            PracticeReview review = PracticeReview.Of(PracticeFile.Read(source.Book, WearSeries.FigureNames), source.Policy, source.Day);
            written.Write(parsed, () => ReviewReport.OfPractice(source));
            terminal.Out.Write(parsed.GetValue(json) ? ToJson(review) : ToText(review));
            return (int)ExitCode.Done;
        });
        return command;
    }

    public static Command Create(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> kind = new("KIND") { Description = "instrument, cassette, practice or work-list." };
        kind.AcceptOnlyFromAmong("instrument", "cassette", "practice", "work-list");
        Argument<string?> code = new("CODE") { Description = "Of the instrument or cassette.", Arity = ArgumentArity.ZeroOrOne };
        Option<bool> uncertainty = new("--uncertainty") { Description = "With the annex on where the uncertainties come from (instrument)." };
        Written written = new();
        Command command = new("report", "Writes a report from the book as HTML or PDF.") { kind, code, uncertainty };
        written.AddTo(command);
        command.Does(parsed =>
        {
            if (!written.IsGiven(parsed)) throw new RimException(ExitCode.WrongArguments, "Give --out FILE; its ending says the form, .html or .pdf.");
            bool needsCode = parsed.GetValue(kind) is "instrument" or "cassette";
            if (needsCode == parsed.GetValue(code) is null) throw new RimException(ExitCode.WrongArguments, needsCode ? "Say which: give its code." : "This report is of the whole practice: leave the code out.");
            ReportSource source = written.Source(parsed, terminal, options);
            string[] files = written.Write(parsed, () => parsed.GetValue(kind) switch
            {
                "instrument" => InstrumentReport.Build(source, parsed.GetValue(code)!, parsed.GetValue(uncertainty)),
                "cassette" => ReviewReport.OfCassette(source, parsed.GetValue(code)!),
                "work-list" => WorkListReport.Build(source),
                _ => ReviewReport.OfPractice(source),
            });
            terminal.Out.Write(parsed.GetValue(json)
                ? ConsoleJson.Write(j =>
                {
                    j.WriteNumber("exitCode", 0);
                    j.WriteStartArray("files");
                    foreach (string file in files) j.WriteStringValue(file);
                    j.WriteEndArray();
                })
                : string.Concat(files.Select(f => $"{f}\n")));
            return (int)ExitCode.Done;
        });
        return command;
    }

    private static string ToText(PracticeReview review)
    {
        StringWriter text = new(CultureInfo.InvariantCulture);
        foreach (PlanItem item in review.Items)
        {
            string when = item.Action == PlanAction.Keep ? $"next inspection {item.DueBy:yyyy-MM-dd}" : item.DueBy is { } due ? string.Create(CultureInfo.InvariantCulture, $"by {due:yyyy-MM-dd}") : "now";
            string cost = item.Cost is { } price ? string.Create(CultureInfo.InvariantCulture, $", {price:0.00} {review.File.Practice?.Currency}") : item.IsPriceMissing ? ", price not in the book" : "";
            text.WriteLine($"{Words(item.Action),-17} {item.File.Name} ({(item.File.Cassette is { } c ? $"cassette {c}" : "no cassette")}), {when}{cost}");
            if (item.Reasons.FirstOrDefault() is { } reason) text.WriteLine($"{"",17} {reason}");
        }
        foreach (string stone in review.Stones) text.WriteLine(stone);
        if (review.Items.Any(i => i.Action == PlanAction.Order))
            text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"To order: {review.KnownCost:0.00} {review.File.Practice?.Currency}{(review.PricesMissing > 0 ? $", and {review.PricesMissing} without a price in the book" : "")}."));
        return text.ToString();
    }

    private static string Words(PlanAction action) => action switch
    {
        PlanAction.Retire => "retire",
        PlanAction.Resharpen => "resharpen",
        PlanAction.TouchUp => "touch up",
        PlanAction.Order => "order a new one",
        PlanAction.PhotographAgain => "photograph again",
        PlanAction.Inspect => "inspect",
        _ => "keep",
    };

    private static string ToJson(PracticeReview review) => ConsoleJson.Write(j =>
    {
        j.WriteNumber("exitCode", 0);
        j.WriteString("day", DateText.Iso(review.Day));
        j.WriteString("currency", review.File.Practice?.Currency);
        j.WriteNumber("knownCost", review.KnownCost);
        j.WriteNumber("pricesMissing", review.PricesMissing);
        j.WriteStartArray("items");
        foreach (PlanItem item in review.Items)
        {
            j.WriteStartObject();
            j.WriteString("action", Words(item.Action).Replace(' ', '-'));
            j.WriteString("instrument", item.File.Instrument.Code);
            j.WriteNumber("end", item.File.End.End);
            j.WriteString("cassette", item.File.Cassette);
            j.WriteString("dueBy", item.DueBy?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
            if (item.Cost is { } cost) j.WriteNumber("cost", cost);
            else j.WriteNull("cost");
            j.WriteStartArray("reasons");
            foreach (string reason in item.Reasons) j.WriteStringValue(reason);
            j.WriteEndArray();
            j.WriteEndObject();
        }
        j.WriteEndArray();
    });

    /// <summary>Where a report goes and by which limits it is made.</summary>
    private sealed class Written
    {
        private readonly Option<string[]> _out = new("--out", "-o") { Description = "File or files to write; the ending says the form: .html or .pdf.", HelpName = "FILE", AllowMultipleArgumentsPerToken = true };
        private readonly Option<string> _paper = new("--paper") { Description = "Of a PDF: a4 or letter.", DefaultValueFactory = _ => "a4" };
        private readonly Option<string?> _policy = new("--policy") { Description = "Limits of your practice (docs/policy.md), for trends and plans.", HelpName = "FILE" };
        private readonly Option<string?> _day = new("--day") { Description = "As of which day; today without it.", HelpName = "yyyy-MM-dd" };

        public Written() => _paper.AcceptOnlyFromAmong("a4", "letter");

        public void AddTo(Command command)
        {
            foreach (Option option in (Option[])[_out, _paper, _policy, _day]) command.Options.Add(option);
        }

        public bool IsGiven(ParseResult parsed) => parsed.GetValue(_out) is { Length: > 0 };

        public ReportSource Source(ParseResult parsed, Terminal terminal, BookOptions options)
        {
            foreach (string file in parsed.GetValue(_out) ?? [])
                if (Path.GetExtension(file).ToLowerInvariant() is not (".html" or ".pdf")) throw new RimException(ExitCode.WrongArguments, $"{file}: the ending must be .html or .pdf.");
            return new(options.Open(parsed, terminal), InputFile.Policy(parsed.GetValue(_policy)), BookOptions.Day(parsed.GetValue(_day), terminal.Today), Terminal.ProgramVersion);
        }

        public string[] Write(ParseResult parsed, Func<PracticeReport> build)
        {
            string[] files = parsed.GetValue(_out) ?? [];
            if (files.Length == 0) return files;
            PracticeReport report = build();
            foreach (string file in files)
            {
                if (Path.GetExtension(file).Equals(".html", StringComparison.OrdinalIgnoreCase)) AtomicFile.Write(file, HtmlReport.Write(report));
                else AtomicFile.Write(file, stream => PdfReport.Write(stream, report, parsed.GetValue(_paper) == "letter" ? Paper.Letter : Paper.A4));
            }
            return files;
        }
    }
}
