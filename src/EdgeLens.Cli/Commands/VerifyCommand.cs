using System.CommandLine;
using System.Globalization;
using EdgeLens.Assessment.Verification;
using EdgeLens.Assessment.Wording;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.RoundGauge;

namespace EdgeLens.Cli.Commands;

/// <summary><c>edgelens verify</c>: a needle or pin of known diameter proves card, print, lens and loupe together.</summary>
internal static class VerifyCommand
{
    private const string Sharps =
        "SHARPS: use a new, blunt drawing-up needle or a gauge pin, never a used needle. Hold a needle by its hub, keep the point away from you, do not recap it by hand, put it into the sharps container afterwards.";

    public static Command Create(Terminal terminal, Option<bool> json)
    {
        Argument<string> photograph = new("PHOTOGRAPH") { Description = "The blackened needle or pin across the card's window, white paper behind it (docs/verification.md)." };
        Option<string?> needle = new("--needle") { Description = "Size of the hypodermic needle (ISO 9626)." };
        needle.AcceptOnlyFromAmong([.. RoundGauge.Needles.Select(n => n.Name["needle ".Length..])]);
        Option<double?> pin = new("--pin") { Description = "In place of --needle: stated diameter of a gauge pin.", HelpName = "mm" };
        Option<string?> lens = new("--lens") { Description = "Profile of the phone and loupe: the result is kept in it.", HelpName = "FILE" };
        Option<string?> cardFile = new("--card") { Description = "Description of another card than the one that comes with the program.", HelpName = "FILE" };
        Option<int?> months = new("--months") { Description = "Months until it should be done again; 6 without it.", HelpName = "N" };
        BarOptions bars = new("", "the card");
        Command command = new("verify", "Measures a needle or pin of known diameter and says whether the photographs can be trusted: pass, fail or not decidable.\n\n" + Sharps + "\n\n" + CommandLine.ExitCodes)
        {
            photograph, needle, pin, lens, cardFile, months,
        };
        bars.AddTo(command);
        command.SetAction(parsed =>
        {
            RoundGauge gauge = Gauge(parsed.GetValue(needle), parsed.GetValue(pin));
            if (parsed.GetValue(months) is <= 0 or > 60) throw new RimException(ExitCode.WrongArguments, "--months must be from 1 to 60.");
            CardDescription card = InputFile.Card(parsed.GetValue(cardFile));
            LensProfile? profile = InputFile.Lens(parsed.GetValue(lens));
            string path = parsed.GetRequiredValue(photograph);
            if (!Measure(path, card, bars.Of(parsed, card) ?? PrintMeasurement.NotMeasured(card), profile).TryGet(out RodDiameter? rod, out Refusal? refusal)) throw new RimException(ExitCode.Refused, refusal.ToString());
            GaugeCheck check = new(gauge, rod.DiameterMm, rod.Budget);
            DateOnly today = terminal.Today;
            LensVerification kept = new(today, gauge.Name, rod.DiameterMm, gauge.LeastMm, gauge.GreatestMm, check.Result.ToString().ToLowerInvariant(), today.AddMonths(parsed.GetValue(months) ?? 6));
            if (profile is not null) AtomicFile.Write(parsed.GetValue(lens)!, (profile with { Verifications = profile.Verifications.Add(kept) }).ToJson());
            terminal.Out.Write(parsed.GetValue(json) ? ToJson(check, kept, profile is not null) : ToText(check, kept, profile is not null));
            return (int)(check.Result == CheckResult.Pass ? ExitCode.Done : ExitCode.Refused);
        });
        return command;
    }

    private static RoundGauge Gauge(string? needle, double? pin) => (needle, pin) switch
    {
        ({ } size, null) => RoundGauge.Needle(size)!,
        (null, { } mm) => RoundGauge.Pin(mm) ?? throw new RimException(ExitCode.WrongArguments, "--pin must be from 0.3 to 3 mm."),
        _ => throw new RimException(ExitCode.WrongArguments, "Give either --needle SIZE or --pin DIAMETER."),
    };

    private static Outcome<RodDiameter> Measure(string path, CardDescription card, PrintMeasurement print, LensProfile? lens)
    {
        try
        {
            if (!PhotographReader.Read(path).TryGet(out Photograph? photo, out Refusal? refusal)) return refusal;
            using (photo) return RodMeasurer.Measure(photo, card, print, lens);
        }
        catch (PhotographUnreadableException e)
        {
            throw new RimException(ExitCode.File, e.Message, e);
        }
    }

    private static string ToText(GaugeCheck check, LensVerification kept, bool isKept) => string.Create(CultureInfo.InvariantCulture,
        $"""
        {check.Words}
        {(isKept ? "Kept in the lens profile; due" : "Not kept (no --lens); due")} again by {kept.Due:yyyy-MM-dd}.
        uncertainty (standard, µm):
        {string.Join('\n', check.Budget.Contributions.OrderByDescending(c => c.InFigure).Select(c => string.Create(CultureInfo.InvariantCulture, $"  {1000 * c.InFigure,6:0.0}  {c.Name}")))}
        {Sharps}

        """);

    private static string ToJson(GaugeCheck check, LensVerification kept, bool isKept) => ConsoleJson.Write(json =>
    {
        json.WriteString("gauge", kept.Gauge);
        json.WriteString("result", kept.Result);
        json.WriteString("words", check.Words);
        json.WriteStartObject("diameterMm");
        json.WriteNumber("value", Math.Round(kept.DiameterMm.Value, 6));
        json.WriteNumber("standardUncertainty", Math.Round(kept.DiameterMm.StandardUncertainty, 6));
        json.WriteNumber("expandedUncertainty", Math.Round(kept.DiameterMm.ExpandedUncertainty, 6));
        json.WriteEndObject();
        json.WriteNumber("leastMm", Math.Round(kept.LeastMm, 6));
        json.WriteNumber("greatestMm", Math.Round(kept.GreatestMm, 6));
        json.WriteString("due", DateText.Iso(kept.Due));
        json.WriteBoolean("isKept", isKept);
        json.WriteStartArray("contributions");
        foreach (UncertaintyContribution c in check.Budget.Contributions)
        {
            json.WriteStartObject();
            json.WriteString("name", c.Name);
            json.WriteNumber("contributionMm", Math.Round(c.InFigure, 7));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteString("caution", Sharps);
    });
}
