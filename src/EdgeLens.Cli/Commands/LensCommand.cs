using System.CommandLine;
using System.Globalization;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;

namespace EdgeLens.Cli.Commands;

/// <summary><c>edgelens lens</c>: a lens profile from photographs of the card.</summary>
internal static class LensCommand
{
    public static Command Create(Terminal terminal, Option<bool> json)
    {
        Argument<string[]> photographs = new("PHOTOGRAPH") { Description = "Photographs of the card, five to ten, tilted by 5 to 15° in different directions.", Arity = ArgumentArity.OneOrMore };
        Option<string> target = new("--out", "-o") { Description = "Profile to write (JSON), for --lens.", HelpName = "FILE", Required = true };
        Option<string?> name = new("--name") { Description = "Name of the profile, as \"phone and loupe\"; without it that of the file.", HelpName = "TEXT" };
        Option<string?> cardFile = new("--card") { Description = "Description of another card than the one that comes with the program.", HelpName = "FILE" };
        BarOptions bars = new("", "the card");
        Command command = new("lens", "Makes a profile of a phone and its loupe from several photographs of the card.\n\n" + CommandLine.ExitCodes) { photographs, target, name, cardFile };
        bars.AddTo(command);
        command.SetAction(parsed =>
        {
            CardDescription card = InputFile.Card(parsed.GetValue(cardFile));
            PrintMeasurement print = bars.Of(parsed, card) ?? PrintMeasurement.NotMeasured(card);
            string file = parsed.GetRequiredValue(target);
            List<CardSighting> sightings = [];
            List<(string File, Refusal Refusal)> refused = [];
            string[] paths = parsed.GetRequiredValue(photographs);
            for (int i = 0; i < paths.Length; i++)
            {
                terminal.Error.WriteLine(FormattableString.Invariant($"[{i + 1}/{paths.Length}] {paths[i]}"));
                if (See(paths[i], card).TryGet(out CardSighting? sighting, out Refusal? refusal)) sightings.Add(sighting);
                else refused.Add((paths[i], refusal));
            }
            foreach ((string path, Refusal refusal) in refused) terminal.Error.WriteLine($"{path}: {refusal}");
            string given = parsed.GetValue(name) is { } text && !string.IsNullOrWhiteSpace(text) ? text : Path.GetFileNameWithoutExtension(file);
            if (!LensProfiler.Estimate(sightings, card, print, given, terminal.Today).TryGet(out LensProfile? profile, out Refusal? why))
                throw new RimException(ExitCode.Refused, why.ToString());
            AtomicFile.Write(file, profile.ToJson());
            ExitCode code = refused.Count > 0 ? ExitCode.Refused : ExitCode.Done;
            terminal.Out.Write(parsed.GetValue(json) ? ToJson(profile, file, refused, code) : ToText(profile, file));
            return (int)code;
        });
        return command;
    }

    private static Outcome<CardSighting> See(string path, CardDescription card)
    {
        try
        {
            if (!PhotographReader.Read(path).TryGet(out Photograph? photograph, out Refusal? refusal)) return refusal;
            using (photograph) return CardDetector.Detect(photograph, card);
        }
        catch (PhotographUnreadableException e)
        {
            throw new RimException(ExitCode.File, e.Message, e);
        }
    }

    private static string ToText(LensProfile p, string file) => string.Create(CultureInfo.InvariantCulture,
        $"""
        lens profile {p.Name}: {file}
          pictures        {p.WidthPx} x {p.HeightPx} px, {p.PhotographCount} photographs
          focal length    {p.FocalLengthPx.Value:0} ± {p.FocalLengthPx.ExpandedUncertainty:0} px (k = 2)
          radial k1       {p.K1.Value:0.0000} ± {p.K1.ExpandedUncertainty:0.0000}
          corner residual {p.CornerResidualPx:0.000} px

        """);

    private static string ToJson(LensProfile p, string file, List<(string File, Refusal Refusal)> refused, ExitCode code) => ConsoleJson.Write(json =>
    {
        json.WriteNumber("exitCode", (int)code);
        json.WriteString("file", file);
        json.WriteString("name", p.Name);
        json.WriteNumber("photographs", p.PhotographCount);
        json.WriteNumber("cornerResidualPx", p.CornerResidualPx);
        json.WriteStartObject("focalLengthPx");
        json.WriteNumber("value", p.FocalLengthPx.Value);
        json.WriteNumber("standardUncertainty", p.FocalLengthPx.StandardUncertainty);
        json.WriteEndObject();
        json.WriteStartArray("refused");
        foreach ((string path, Refusal refusal) in refused)
        {
            json.WriteStartObject();
            json.WriteString("file", path);
            json.WriteString("code", refusal.Code);
            json.WriteString("reason", refusal.Reason);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    });
}
