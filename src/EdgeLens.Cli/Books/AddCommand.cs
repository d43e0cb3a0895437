using System.CommandLine;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Cli.Rim;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Records.Sharpening;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens book add</c>: sites, cassettes, instruments, working ends, stones.</summary>
internal static class AddCommand
{
    public static Command Create(Terminal terminal, Option<bool> json, BookOptions options) => new("add", "Adds a site, cassette, instrument, further working end or stone.")
    {
        Site(terminal, json, options), Cassette(terminal, json, options), Instrument(terminal, json, options), End(terminal, json, options), Stone(terminal, json, options),
    };

    private static Command Site(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> code = new("CODE"), name = new("NAME");
        Command command = new("site", "A place where the practice works.") { code, name };
        options.AddCorrectionTo(command);
        command.Does(parsed => Enter(terminal, parsed, json, options, new Site { By = options.By(parsed), Code = parsed.GetRequiredValue(code), Name = parsed.GetRequiredValue(name) }, "Site " + parsed.GetValue(code)));
        return command;
    }

    private static Command Cassette(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> code = new("CODE"), name = new("NAME");
        Option<string?> site = new("--site") { Description = "Where it is used.", HelpName = "CODE" };
        Command command = new("cassette", "A set of instruments that is sterilised and used together.") { code, name, site };
        options.AddCorrectionTo(command);
        command.Does(parsed => Enter(terminal, parsed, json, options,
            new Cassette { By = options.By(parsed), Code = parsed.GetRequiredValue(code), Name = parsed.GetRequiredValue(name), Site = parsed.GetValue(site) }, "Cassette " + parsed.GetValue(code)));
        return command;
    }

    private static Command Instrument(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> code = new("CODE") { Description = "Your own name for it; never given to another one." };
        Option<string?> description = new("--description") { Description = "What you call its pattern." };
        Option<string?> cassette = new("--cassette") { Description = "Where it lies.", HelpName = "CODE" };
        Option<string?> bought = new("--bought") { Description = "Day of purchase.", HelpName = "yyyy-MM-dd" };
        Option<decimal?> price = new("--price") { Description = "Of a new one." };
        Option<int> ends = new("--ends") { Description = "Working ends of this kind: 1 or 2.", DefaultValueFactory = _ => 1 };
        EndOptions end = new();
        Command command = new("instrument", "An instrument with its working ends. (Two ends of different kinds: add one here, the other by `add end`.)") { code, description, cassette, bought, price, ends };
        end.AddTo(command);
        options.AddCorrectionTo(command);
        command.Does(parsed =>
        {
            string name = parsed.GetRequiredValue(code), by = options.By(parsed);
            DateOnly? day = parsed.GetValue(bought) is { } text ? BookOptions.Day(text, default) : null;
            Instrument instrument = options.Corrected(parsed, new Instrument { By = by, Code = name, Description = parsed.GetValue(description), PurchasedOn = day, Price = parsed.GetValue(price) });
            List<Entry> rows = [instrument];
            // A correction is about the instrument alone; its ends have rows of their own.
            if (instrument.Corrects is null)
            {
                if (parsed.GetValue(ends) is not (1 or 2)) throw new RimException(ExitCode.WrongArguments, "--ends is 1 or 2.");
                for (int i = 1; i <= parsed.GetValue(ends); i++) rows.Add(end.Row(parsed, by, name, i));
                if (parsed.GetValue(cassette) is { } place) rows.Add(new Placement { By = by, Instrument = name, Cassette = place, Day = day ?? terminal.Today });
            }
            return BookCommand.Entered(terminal, parsed.GetValue(json), options.Open(parsed, terminal).Append([.. rows])[0], $"Instrument {name}");
        });
        return command;
    }

    private static Command End(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> code = new("INSTRUMENT");
        Argument<int> number = new("NUMBER");
        EndOptions end = new();
        Command command = new("end", "A further working end of an instrument; with --corrects what is known of one.") { code, number };
        end.AddTo(command);
        options.AddCorrectionTo(command);
        command.Does(parsed => Enter(terminal, parsed, json, options, end.Row(parsed, options.By(parsed), parsed.GetRequiredValue(code), parsed.GetValue(number)), $"End {parsed.GetValue(number)} of {parsed.GetValue(code)}"));
        return command;
    }

    private static Command Stone(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> code = new("CODE"), description = new("DESCRIPTION");
        Option<int> zones = new("--zones") { Description = "Into how many zones it is divided, so that use goes round.", DefaultValueFactory = _ => 3 };
        Command command = new("stone", "A sharpening stone.") { code, description, zones };
        options.AddCorrectionTo(command);
        command.Does(parsed => Enter(terminal, parsed, json, options,
            new Stone { By = options.By(parsed), Code = parsed.GetRequiredValue(code), Description = parsed.GetRequiredValue(description), Zones = parsed.GetValue(zones) }, "Stone " + parsed.GetValue(code)));
        return command;
    }

    private static int Enter<T>(Terminal terminal, ParseResult parsed, Option<bool> json, BookOptions options, T entry, string words) where T : Entry =>
        BookCommand.Entered(terminal, parsed.GetValue(json), options.Open(parsed, terminal).Append(options.Corrected(parsed, entry))[0], words);

    /// <summary>What is known of a working end.</summary>
    private sealed class EndOptions
    {
        private readonly Option<string> _family = new("--family", "-f") { Description = "Kind of the working end.", Required = true };
        private readonly Option<string?> _edge = new("--working-edge") { Description = "For an area-specific curette: the edge that cuts, seen from heel to toe with the face up." };
        private readonly Option<double?> _length = new("--maker-length") { Description = "Blade length by the maker.", HelpName = "mm" };
        private readonly Option<double?> _width = new("--maker-width") { Description = "Blade width by the maker.", HelpName = "mm" };
        private readonly Option<double?> _face = new("--maker-face-angle") { Description = "Face to terminal shank by the maker.", HelpName = "deg" };
        private readonly Option<double?> _angle = new("--maker-edge-angle") { Description = "Internal or wedge angle by the maker.", HelpName = "deg" };

        public EndOptions()
        {
            _family.AcceptOnlyFromAmong([.. FamilyTraits.All.Select(t => t.Name)]);
            _edge.AcceptOnlyFromAmong("left", "right");
        }

        public void AddTo(Command command)
        {
            foreach (Option option in (Option[])[_family, _edge, _length, _width, _face, _angle]) command.Options.Add(option);
        }

        public WorkingEnd Row(ParseResult parsed, string by, string instrument, int end) => new()
        {
            By = by,
            Instrument = instrument,
            End = end,
            Family = FamilyTraits.Named(parsed.GetRequiredValue(_family))!.Family,
            WorkingEdge = parsed.GetValue(_edge) switch { "left" => EdgePart.Left, "right" => EdgePart.Right, _ => null },
            MakerLengthMm = parsed.GetValue(_length),
            MakerWidthMm = parsed.GetValue(_width),
            MakerFaceAngleDeg = parsed.GetValue(_face),
            MakerEdgeAngleDeg = parsed.GetValue(_angle),
        };
    }
}
