using System.CommandLine;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Rim;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.MeasuringSetup;
using EdgeLens.Records.Sharpening;
using EdgeLens.Records.Uses;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens book log</c>: what happens from day to day.</summary>
internal static class LogCommand
{
    public static Command Create(Terminal terminal, Option<bool> json, BookOptions options) => new Command("log", "Logs a procedure, sharpening, rod test, move, care of a stone, sign-off, verification or lens profile.")
    {
        Procedure(), Sharpening(), RodTest(), Move(), StoneCare(), SignOff(), Verification(), Lens(),
    }.Filled(terminal, json, options);

    private static Command Filled(this Command parent, Terminal terminal, Option<bool> json, BookOptions options)
    {
        foreach (LoggedEvent command in parent.Subcommands.OfType<LoggedEvent>()) command.Complete(terminal, json, options);
        return parent;
    }

    private static LoggedEvent Procedure()
    {
        Option<string?> cassette = new("--cassette") { Description = "All that lies in it was used.", HelpName = "CODE" };
        Option<string?> instrument = new("--instrument") { Description = "In place of --cassette: one instrument.", HelpName = "CODE" };
        Option<int> light = new("--light") { Description = "Patients with light deposits." }, heavy = new("--heavy") { Description = "Patients with heavy deposits." };
        return new("procedure", "Procedures that were done.", (p, by, day, _) => new Procedure
        {
            By = by,
            Day = day,
            Cassette = p.GetValue(cassette),
            Instrument = p.GetValue(instrument),
            LightCases = p.GetValue(light),
            HeavyCases = p.GetValue(heavy),
        }) { cassette, instrument, light, heavy };
    }

    private static LoggedEvent Sharpening()
    {
        Argument<string> instrument = new("INSTRUMENT");
        Option<int> end = End();
        Option<string?> who = new("--sharpened-by") { Description = "Staff code of who sharpened, where it is not who enters it.", HelpName = "CODE" }, stone = new("--stone") { Description = "Which stone.", HelpName = "CODE" }, note = Note();
        Option<int?> zone = new("--zone") { Description = "Zone of the stone." }, strokes = new("--strokes") { Description = "How many." };
        Option<bool> sentOut = new("--sent-out") { Description = "Sharpened elsewhere." };
        return new("sharpening", "One sharpening of one working end.", (p, by, day, time) => new SharpeningRow
        {
            By = by,
            Instrument = p.GetRequiredValue(instrument),
            End = p.GetValue(end),
            Day = day,
            Time = time,
            SharpenedBy = p.GetValue(sentOut) ? null : p.GetValue(who) ?? by,
            Stone = p.GetValue(stone),
            Zone = p.GetValue(zone),
            Strokes = p.GetValue(strokes),
            Note = p.GetValue(note),
        }) { instrument, end, who, sentOut, stone, zone, strokes, note };
    }

    private static LoggedEvent RodTest()
    {
        Argument<string> instrument = new("INSTRUMENT"), result = new("RESULT") { Description = "bites or slides." };
        result.AcceptOnlyFromAmong("bites", "slides");
        Option<int> end = End();
        Option<string?> note = Note();
        return new("rod-test", "What the plastic test rod says.", (p, by, day, time) => new RodTest
        {
            By = by,
            Instrument = p.GetRequiredValue(instrument),
            End = p.GetValue(end),
            Day = day,
            Time = time,
            Bites = p.GetValue(result) == "bites",
            Note = p.GetValue(note),
        }) { instrument, result, end, note };
    }

    private static LoggedEvent Move()
    {
        Argument<string> instrument = new("INSTRUMENT");
        Option<string?> cassette = new("--to") { Description = "Into this cassette; without it: into none.", HelpName = "CODE" };
        return new("move", "An instrument goes into another cassette.", (p, by, day, _) => new Placement { By = by, Instrument = p.GetRequiredValue(instrument), Cassette = p.GetValue(cassette), Day = day }) { instrument, cassette };
    }

    private static LoggedEvent StoneCare()
    {
        Argument<string> stone = new("STONE");
        Option<bool> wiped = new("--wiped") { Description = "Cleaned of swarf." }, flat = new("--flat") { Description = "Checked: flat." }, hollow = new("--hollow") { Description = "Checked: hollow." };
        return new("stone", "A stone was looked after.", (p, by, day, _) => new StoneCare
        {
            By = by,
            Stone = p.GetRequiredValue(stone),
            Day = day,
            WasWiped = p.GetValue(wiped),
            IsFlat = p.GetValue(flat) ? true : p.GetValue(hollow) ? false : null,
        }) { stone, wiped, flat, hollow };
    }

    private static LoggedEvent SignOff()
    {
        Argument<long> inspection = new("INSPECTION") { Description = "Its row, as `book find` shows it." };
        Option<bool> agrees = new("--agree") { Description = "Do as the verdict says." }, differs = new("--disagree") { Description = "Do as the comment says." };
        Option<string?> comment = new("--comment") { Description = "In the clinician's words." };
        return new("sign-off", "The lead clinician's word on an inspection.", (p, by, _, _) => new SignOff
        {
            By = by,
            InspectionId = p.GetValue(inspection),
            Agrees = p.GetValue(agrees) ? true : p.GetValue(differs) ? false : null,
            Comment = p.GetValue(comment),
        }) { inspection, agrees, differs, comment };
    }

    private static LoggedEvent Verification()
    {
        Argument<string> subject = new("SUBJECT") { Description = "What was measured." };
        Option<double> known = new("--known") { Description = "Its known dimension.", HelpName = "mm", Required = true }, measured = new("--measured") { Description = "What EdgeLens said.", HelpName = "mm", Required = true };
        Option<double> u = new("--uncertainty") { Description = "Standard uncertainty of the difference.", HelpName = "mm", Required = true };
        Option<string?> lens = new("--lens-name") { Description = "Name of the lens profile that was used." };
        return new("verification", "A known dimension was measured to see whether the set-up still measures right.", (p, by, day, _) => new Verification
        {
            By = by,
            Day = day,
            Subject = p.GetRequiredValue(subject),
            KnownMm = p.GetValue(known),
            MeasuredMm = p.GetValue(measured),
            StandardUncertaintyMm = p.GetValue(u),
            LensProfile = p.GetValue(lens),
        }) { subject, known, measured, u, lens };
    }

    private static LoggedEvent Lens()
    {
        Argument<string> file = new("FILE") { Description = "Profile made by `edgelens lens`." };
        return new("lens", "Keeps a lens profile.", (p, by, day, _) => new LensProfileEntry { By = by, Day = day, Name = InputFile.Lens(p.GetRequiredValue(file))!.Name, Json = InputFile.Text(p.GetRequiredValue(file)) }) { file };
    }

    private static Option<int> End() => new("--end") { Description = "Which working end.", DefaultValueFactory = _ => 1 };

    private static Option<string?> Note() => new("--note") { Description = "In your words." };

    /// <summary>A command that enters one row of one day.</summary>
    private sealed class LoggedEvent(string name, string description, Func<ParseResult, string, DateOnly, TimeOnly?, Entry> row) : Command(name, description)
    {
        public void Complete(Terminal terminal, Option<bool> json, BookOptions options)
        {
            Option<string?> day = new("--day") { Description = "When; today without it.", HelpName = "yyyy-MM-dd" }, time = new("--time") { Description = "Where the order within the day matters.", HelpName = "HH:mm" };
            Options.Add(day);
            Options.Add(time);
            options.AddCorrectionTo(this);
            this.Does(parsed =>
            {
                Entry entry;
                try
                {
                    entry = row(parsed, options.By(parsed), BookOptions.Day(parsed.GetValue(day), terminal.Today), BookOptions.Time(parsed.GetValue(time)));
                }
                catch (ArgumentException e)
                {
                    throw new RimException(ExitCode.WrongArguments, e.Message, e);
                }
                return BookCommand.Entered(terminal, parsed.GetValue(json), options.Open(parsed, terminal).Append(options.Corrected(parsed, entry))[0], $"Logged: {Name}");
            });
        }
    }
}
