using System.Collections.Immutable;
using System.CommandLine;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Rim;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Cli.Commands;

/// <summary>What a user knows of a photograph that is named on the command line and not in an index.</summary>
internal sealed class PhotographOptions
{
    private readonly Option<string?> _family = new("--family", "-f") { Description = "Kind of the working end." };
    private readonly Option<string?> _edge = new("--working-edge") { Description = "For an area-specific curette: the edge that cuts, seen from heel to toe with the face up." };
    private readonly Option<string?> _instrument = new("--instrument") { Description = "Your own name for the instrument; without it the name of the photograph.", HelpName = "ID" };
    private readonly Option<int?> _end = new("--working-end") { Description = "Which end of a double-ended instrument, counted from 1.", HelpName = "N" };
    private readonly Option<double?> _height = new("--height") { Description = "Height of the face over the card, towards the camera; 0 without it.", HelpName = "mm" };
    private readonly Option<double?> _limit = new("--height-limit") { Description = "The height is within ± this; 1.5 without it.", HelpName = "mm" };

    public PhotographOptions()
    {
        _family.AcceptOnlyFromAmong([.. FamilyTraits.All.Select(t => t.Name)]);
        _edge.AcceptOnlyFromAmong("left", "right");
    }

    public BarOptions Bars { get; } = new("", "the card");

    public void AddTo(Command command)
    {
        foreach (Option option in (Option[])[_family, _edge, _instrument, _end]) command.Options.Add(option);
        Bars.AddTo(command);
        command.Options.Add(_height);
        command.Options.Add(_limit);
    }

    /// <summary>Names of those that were given.</summary>
    public IEnumerable<string> Given(ParseResult parsed)
    {
        foreach (Option option in (Option[])[_family, _edge, _instrument, _end, _height, _limit])
            if (parsed.GetResult(option) is not null) yield return option.Name;
        if (Bars.IsGiven(parsed)) yield return "--bar-x";
    }

    public FamilyTraits Family(ParseResult parsed) =>
        FamilyTraits.Named(parsed.GetValue(_family) ?? throw new RimException(ExitCode.WrongArguments, "--family is needed: the program does not guess what an instrument is."))!;

    public EdgePart? WorkingEdge(ParseResult parsed) => parsed.GetValue(_edge) switch { "left" => EdgePart.Left, "right" => EdgePart.Right, _ => null };

    public string InstrumentId(ParseResult parsed, string photograph) => parsed.GetValue(_instrument) is { } id && !string.IsNullOrWhiteSpace(id) ? id : Path.GetFileNameWithoutExtension(photograph);

    public int WorkingEnd(ParseResult parsed) => parsed.GetValue(_end) switch
    {
        null => 1,
        { } end and >= 1 and <= 99 => end,
        _ => throw new RimException(ExitCode.WrongArguments, "--working-end must be from 1 to 99."),
    };

    /// <summary>Photographs of one day, of one card; the pictures tell the views.</summary>
    public ImmutableArray<ListedPhotograph> Photographs(ParseResult parsed, IEnumerable<string> paths, CardDescription card)
    {
        PrintMeasurement? print = Bars.Of(parsed, card);
        Measured height = HeightOverCardMm(parsed);
        return [.. paths.Select(path => new ListedPhotograph(path, null, print, height))];
    }

    public Measured HeightOverCardMm(ParseResult parsed)
    {
        double height = parsed.GetValue(_height) ?? 0, limit = parsed.GetValue(_limit) ?? FolderIndex.UsualHeightLimitMm;
        if (!(Math.Abs(height) <= FolderIndex.GreatestHeightMm)) throw new RimException(ExitCode.WrongArguments, $"--height must be within ± {FolderIndex.GreatestHeightMm} mm.");
        if (limit is not (>= 0 and <= FolderIndex.GreatestHeightMm)) throw new RimException(ExitCode.WrongArguments, $"--height-limit must be from 0 to {FolderIndex.GreatestHeightMm} mm.");
        return new(height, Quadrature.FromLimits(limit));
    }
}
