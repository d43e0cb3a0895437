using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Rim;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Cli.Folders;

/// <summary>Reads a folder's <c>index.json</c> (docs/commands.md): what the user knows of each photograph. Fields that it does not know it leaves alone.</summary>
public sealed class FolderIndex
{
    /// <summary>Of the file.</summary>
    public const string FileName = "index.json";

    /// <summary>A face lies within this of the card when nothing else is said (docs/photographing.md), mm.</summary>
    public const double UsualHeightLimitMm = 1.5;

    /// <summary>Farther from the card's plane than this the photograph shows something else, mm.</summary>
    public const double GreatestHeightMm = 50;

    // A message with a hundred complaints helps nobody.
    private const int MostComplaints = 20;

    private readonly string _folder;
    private readonly CardDescription _card;

    private FolderIndex(string folder, CardDescription card) => (_folder, _card) = (folder, card);

    /// <summary>Reads the index.</summary>
    /// <param name="folder">That holds it.</param>
    /// <param name="cardPath">Null: as the index says, or the card that comes with the program.</param>
    /// <exception cref="RimException">It cannot be read; or its form is wrong, with every complaint by instrument and field.</exception>
    public static ListedFolder Read(string folder, string? cardPath)
    {
        string path = Path.Combine(folder, FileName);
        if (!Directory.Exists(folder)) throw new RimException(ExitCode.File, $"{folder}: there is no such folder.");
        if (!File.Exists(path)) throw new RimException(ExitCode.File, $"{folder}: there is no {FileName} in this folder. docs/commands.md says what it holds.");
        List<string> complaints = [];
        try
        {
            using JsonDocument document = JsonDocument.Parse(InputFile.Text(path));
            IndexNode root = new(document.RootElement, "", complaints);
            string? ownCard = root.OptionalText("card") is null ? null : root.Read("card", file => Inside(folder, file), "a path inside this folder");
            ListedFolder listed = new FolderIndex(folder, InputFile.Card(cardPath ?? ownCard)).Read(root);
            if (complaints.Count == 0) return listed;
        }
        catch (JsonException e)
        {
            complaints.Add($"it is not JSON: {e.Message}");
        }
        string more = complaints.Count > MostComplaints ? $"\n  and {complaints.Count - MostComplaints} more" : "";
        throw new RimException(ExitCode.File, $"{path} is not an index of photographs:\n  {string.Join("\n  ", complaints.Take(MostComplaints))}{more}");
    }

    private ListedFolder Read(IndexNode root)
    {
        List<ListedWorkingEnd> ends = [];
        foreach (IndexNode node in root.Items("instruments", number => $"instrument number {number}"))
        {
            string? id = node.Text("id");
            IndexNode named = id is null ? node : node.At($"instrument {id}");
            int end = (int?)WholeNumber(named, "working_end", 1, 99) ?? 1;
            FamilyTraits? family = named.Read("family", FamilyTraits.Named, "one of " + string.Join(", ", FamilyTraits.All.Select(t => t.Name)));
            EdgePart? edge = named.OptionalText("working_edge") switch
            {
                "left" => EdgePart.Left,
                "right" => EdgePart.Right,
                null or "both" => null,
                _ => Complained(named, "working_edge", "must be left, right, both or null"),
            };
            ImmutableArray<ListedInspection> days = Inspections(named, id ?? "");
            if (days.IsEmpty) named.Complain("inspections", "holds no inspection");
            if (id is null || family is null) continue;
            if (ends.Any(e => e.InstrumentId == id && e.WorkingEnd == end)) named.Complain("id", string.Create(CultureInfo.InvariantCulture, $"stands here twice with working end {end}"));
            ends.Add(new(id, end, family, edge, days));
        }
        return new(root.OptionalText("practice"), root.Flag("rendered"), _card, [.. ends]);
    }

    private ImmutableArray<ListedInspection> Inspections(IndexNode end, string id)
    {
        List<ListedInspection> days = [];
        foreach (IndexNode node in end.Items("inspections", number => $"instrument {id}, inspection number {number}"))
        {
            string? date = node.Text("date");
            IndexNode dated = date is null ? node : node.At($"instrument {id}, inspection {date}");
            bool isDate = DateOnly.TryParseExact(date, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day);
            if (date is not null && !isDate) dated.Complain("date", "must be a date as 2025-01-31");
            bool isAsNew = dated.Flag("as_new");
            if (isAsNew && days.Any(d => d.IsAsNew)) dated.Complain("as_new", "is true for a second inspection; only one can be the baseline");
            if (isDate && days.Any(d => d.Date == day)) dated.Complain("date", "stands here twice");
            days.Add(new(day, isAsNew, dated.OptionalText("condition"), [.. dated.Items("photos", number => $"instrument {id}, inspection {date}, photo number {number}").Select(Photograph).OfType<ListedPhotograph>()]));
        }
        return [.. days.OrderBy(d => d.Date)];
    }

    private ListedPhotograph? Photograph(IndexNode node)
    {
        string? path = node.Read("file", file => Inside(_folder, file), "a path inside this folder");
        PhotographView? view = node.OptionalText("view") switch
        {
            "face" => PhotographView.Face,
            "toe" => PhotographView.Toe,
            "side" => PhotographView.Side,
            null => null,
            _ => Complained<PhotographView>(node, "view", "must be face, toe or side"),
        };
        PrintMeasurement? print = null;
        if (node.OptionalPair("bars_measured_mm") is { } bars)
        {
            if (CaliperReadings.Complaint(_card, bars.First, bars.Second) is { } complaint) node.Complain("bars_measured_mm", complaint);
            print = PrintMeasurement.FromReadings(bars.First, bars.Second);
        }
        double height = node.OptionalNumber("height_over_card_mm", -GreatestHeightMm, GreatestHeightMm) ?? 0;
        double limit = node.OptionalNumber("height_limit_mm", 0, GreatestHeightMm) ?? UsualHeightLimitMm;
        string? takenBy = node.OptionalText("taken_by");
        return path is null ? null : new(path, view, print, new(height, Quadrature.FromLimits(limit))) { TakenBy = takenBy };
    }

    private static EdgePart? Complained(IndexNode node, string field, string what) => Complained<EdgePart>(node, field, what);

    private static T? Complained<T>(IndexNode node, string field, string what) where T : struct
    {
        node.Complain(field, what);
        return null;
    }

    private static double? WholeNumber(IndexNode node, string field, int least, int greatest)
    {
        if (node.OptionalNumber(field, least, greatest) is not { } number) return null;
        if (number % 1 != 0) node.Complain(field, "must be a whole number");
        return number;
    }

    /// <summary>The path, when it stays in the folder: an index that came by mail must not reach for other files.</summary>
    private static string? Inside(string folder, string file)
    {
        if (file.Contains('\0', StringComparison.Ordinal) || Path.IsPathRooted(file) || file.Split('/', '\\').Contains("..")) return null;
        return Path.Combine(folder, file);
    }
}
