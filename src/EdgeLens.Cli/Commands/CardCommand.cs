using System.Collections.Immutable;
using System.CommandLine;
using EdgeLens.Cards;
using EdgeLens.Cards.Sheets;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;

namespace EdgeLens.Cli.Commands;

/// <summary><c>edgelens card</c>: draws the reference card.</summary>
internal static class CardCommand
{
    private static readonly ImmutableArray<string> Forms = [".pdf", ".svg", ".png"];

    public static Command Create(Terminal terminal, Option<bool> json)
    {
        Option<string[]> target = new("--out", "-o") { Description = "File to write; its ending says the form: .pdf (with instructions; best to print from), .svg or .png. May be given several times.", HelpName = "FILE", Required = true, AllowMultipleArgumentsPerToken = true };
        Option<string> paper = new("--paper") { Description = "Paper of the PDF.", DefaultValueFactory = _ => "a4" };
        paper.AcceptOnlyFromAmong(StringComparer.OrdinalIgnoreCase, [.. PaperSize.All.Select(p => p.Name.ToLowerInvariant())]);
        Option<int> dpi = new("--dpi") { Description = "Resolution of the PNG, 150 to 2400 pixels per inch.", DefaultValueFactory = _ => 600 };
        Option<string?> description = new("--description") { Description = "Another card than the one that comes with the program.", HelpName = "FILE" };
        Command command = new("card", "Draws the reference card at true scale, ready to print, with a page of instructions in the PDF.\n\n" + CommandLine.ExitCodes) { target, paper, dpi, description };
        command.SetAction(parsed =>
        {
            string[] files = parsed.GetRequiredValue(target);
            int resolution = parsed.GetValue(dpi);
            if (resolution is < 150 or > 2400) throw new RimException(ExitCode.WrongArguments, "--dpi must be from 150 to 2400.");
            if (files.FirstOrDefault(f => !Forms.Contains(Path.GetExtension(f).ToLowerInvariant())) is { } unknown)
                throw new RimException(ExitCode.WrongArguments, $"{unknown}: the file's name must end in {string.Join(", ", Forms)}.");
            OpenCvRuntime.Require();
            CardDescription card = InputFile.Card(parsed.GetValue(description));
            PaperSize sheet = PaperSize.All.Single(p => p.Name.Equals(parsed.GetRequiredValue(paper), StringComparison.OrdinalIgnoreCase));
            foreach (string file in files) Draw(file, card, sheet, resolution);
            terminal.Out.Write(parsed.GetValue(json) ? ToJson(card, files) : string.Concat(files.Select(f => $"card {card.Name}: {f}\n")));
            return (int)ExitCode.Done;
        });
        return command;
    }

    private static void Draw(string file, CardDescription card, PaperSize paper, int dpi)
    {
        switch (Path.GetExtension(file).ToLowerInvariant())
        {
            case ".pdf":
                if (!paper.Takes(card)) throw new RimException(ExitCode.WrongArguments, $"Card {card.Name} does not fit on {paper.Name} paper.");
                AtomicFile.Write(file, stream => CardDrawing.WritePdf(stream, card, paper));
                break;
            case ".svg":
                AtomicFile.Write(file, CardDrawing.ToSvg(card));
                break;
            default:
                byte[] png = CardDrawing.ToPng(card, dpi);
                AtomicFile.Write(file, stream => stream.Write(png));
                break;
        }
    }

    private static string ToJson(CardDescription card, string[] files) => ConsoleJson.Write(json =>
    {
        json.WriteNumber("exitCode", (int)ExitCode.Done);
        json.WriteString("card", card.Name);
        json.WriteNumber("barXMm", card.BarX.LengthMm);
        json.WriteNumber("barYMm", card.BarY.LengthMm);
        json.WriteStartArray("files");
        foreach (string file in files) json.WriteStringValue(file);
        json.WriteEndArray();
    });
}
