using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Cards;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Records.Sharpening;
using EdgeLens.Records.Uses;
using EdgeLens.Store;

namespace EdgeLens.Cli.Books.Demo;

/// <summary>Enters an invented practice into a book: what has photographs is measured, everything else is called invented in every row.</summary>
internal sealed class DemoClinic
{
    /// <summary>Who enters all of it: nobody's initials.</summary>
    private const string Staff = "DEMO";

    /// <summary>Stands for the policy of figures that nothing measured or judged.</summary>
    private const string InventedPolicy = "invented";

    // Invented figures get the uncertainties that measured ones of such instruments have: width loss about 1 % of the width, of which the as-new photograph gives the half.
    private const double WidthUncertaintyPercent = 0.9, LengthUncertaintyMm = 0.02, SharedShare = 0.5, ReflectingUncertaintyPercent = 2;

    private readonly ClinicData _data;
    private readonly string _folder;

    private DemoClinic(ClinicData data, string folder) => (_data, _folder) = (data, folder);

    public string Practice => _data.Practice;

    /// <summary>Reads <c>clinic.json</c>.</summary>
    /// <exception cref="RimException">It cannot be read.</exception>
    public static DemoClinic Read(string folder)
    {
        string path = Path.Combine(folder, "clinic.json");
        try
        {
            JsonSerializerOptions form = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, UnmappedMemberHandling = System.Text.Json.Serialization.JsonUnmappedMemberHandling.Disallow };
            return new(JsonSerializer.Deserialize<ClinicData>(InputFile.Text(path), form) ?? throw new JsonException("it is empty"), folder);
        }
        catch (JsonException e)
        {
            throw new RimException(ExitCode.File, $"{path} cannot be read: {e.Message}", e);
        }
    }

    /// <summary>Fills an empty book.</summary>
    /// <returns>How many inspections it has then.</returns>
    public int Build(RecordBook book, Terminal terminal)
    {
        List<Entry> rows =
        [
            new Practice { By = Staff, Name = _data.Practice, Currency = _data.Currency, IsDemo = true },
            .. _data.Sites.Select(s => new Site { By = Staff, Code = s.Code, Name = s.Name }),
            .. _data.Cassettes.Select(c => new Cassette { By = Staff, Code = c.Code, Name = c.Name, Site = c.Site }),
        ];
        foreach (ClinicStone stone in _data.Stones)
        {
            rows.Add(new Stone { By = Staff, Code = stone.Code, Description = stone.Description, Zones = stone.Zones });
            rows.Add(new StoneCare { By = Staff, Stone = stone.Code, Day = Day(stone.CheckedFlat), IsFlat = true });
            rows.Add(new StoneCare { By = Staff, Stone = stone.Code, Day = Day(stone.Wiped), WasWiped = true });
        }
        foreach (ClinicInstrument instrument in _data.Instruments) rows.AddRange(RowsOf(instrument));
        rows.AddRange(_data.Uses.Select(u => new Procedure { By = Staff, Cassette = u.Cassette, Day = Day(u.Day), LightCases = u.Light, HeavyCases = u.Heavy }));
        book.Append([.. rows]);

        CardDescription card = InputFile.Card(Path.Combine(_folder, _data.Card));
        int photographs = _data.Instruments.SelectMany(i => i.Ends).SelectMany(e => e.Inspections).Count(i => i.Photograph is not null), done = 0;
        WorkingEndInspector inspector = new(new ViewReader(card, null, Policy.Default, terminal.Error.WriteLine), Policy.Default, path => terminal.Error.WriteLine(FormattableString.Invariant($"[{++done}/{photographs}] {path}")));
        int count = 0;
        foreach (ClinicInstrument instrument in _data.Instruments)
            foreach ((ClinicEnd end, int number) in instrument.Ends.Select((e, i) => (e, i + 1)))
                count += Inspections(book, inspector, book.CurrentOf<WorkingEnd>(instrument.Code).Single(e => e.End == number), end);
        return count;
    }

    private static IEnumerable<Entry> RowsOf(ClinicInstrument instrument)
    {
        yield return new Instrument { By = Staff, Code = instrument.Code, Description = instrument.Description, PurchasedOn = instrument.Bought, Price = instrument.Price };
        yield return new Placement { By = Staff, Instrument = instrument.Code, Cassette = instrument.Cassette, Day = instrument.Bought };
        foreach ((ClinicEnd end, int number) in instrument.Ends.Select((e, i) => (e, i + 1)))
        {
            yield return new WorkingEnd
            {
                By = Staff,
                Instrument = instrument.Code,
                End = number,
                Family = FamilyTraits.Named(end.Family)?.Family ?? throw new RimException(ExitCode.File, $"clinic.json: {end.Family} is no kind of working end."),
                WorkingEdge = end.WorkingEdge switch { "left" => EdgePart.Left, "right" => EdgePart.Right, _ => null },
                MakerLengthMm = end.MakerLengthMm,
            };
            foreach (ClinicSharpening s in end.Sharpenings)
                yield return new SharpeningRow { By = Staff, Instrument = instrument.Code, End = number, Day = s.Day, SharpenedBy = s.By, Stone = s.Stone, Zone = s.Zone, Strokes = s.Strokes, Note = s.Note };
            foreach (ClinicRodTest r in end.RodTests) yield return new RodTest { By = Staff, Instrument = instrument.Code, End = number, Day = r.Day, Bites = r.Bites };
        }
        if (instrument.State is { } state)
            yield return new StateChange
            {
                By = Staff,
                Instrument = instrument.Code,
                Day = instrument.StateDay ?? instrument.Bought,
                State = state == "retired" ? InstrumentState.Retired : InstrumentState.AtSharpening,
                Reason = instrument.StateReason,
            };
    }

    private int Inspections(RecordBook book, WorkingEndInspector inspector, WorkingEnd end, ClinicEnd data)
    {
        Measured height = new(0, Quadrature.FromLimits(FolderIndex.UsualHeightLimitMm));
        BookInspector rows = new(book, Policy.Default, new(Terminal.ProgramVersion, _data.Practice, IsRenderedDemo: true));
        (ClinicInspection Of, NewPhotograph Photograph, ListedInspection Listed)[] photographed =
        [
            .. from i in data.Inspections
               where i.Photograph is not null
               let path = Path.Combine(_folder, i.Photograph!.File)
               let photograph = BookInspector.New(path, PhotographView.Face, 0, i.Photograph!.BarXMm, i.Photograph.BarYMm, height)
               select (i, photograph, new ListedInspection(i.Day, i.AsNew, i.Note, [BookInspector.Listed(photograph.Row, path)])),
        ];
        ImmutableArray<InspectedDay> seen = photographed.Length == 0 ? [] : inspector.Inspect(BookInspector.Listed(end, photographed.Select(p => p.Listed)));
        Dictionary<ClinicInspection, NewInspection> measured = photographed.Zip(seen).ToDictionary(
            p => p.First.Of, p => rows.Found(p.Second, Staff, null, FigureOrigin.RenderedPhotographs, [p.First.Photograph]));
        foreach (ClinicInspection inspection in data.Inspections)
        {
            InspectionEntry entered = book.Append(measured.GetValueOrDefault(inspection) ?? Invented(end, inspection));
            if (inspection.SignedOffBy is { } by) book.Append(new SignOff { By = by, InspectionId = entered.Id, Agrees = true, Comment = inspection.SignOffComment });
        }
        return data.Inspections.Length;
    }

    private static NewInspection Invented(WorkingEnd end, ClinicInspection inspection)
    {
        ClinicInvented said = inspection.Invented ?? throw new RimException(ExitCode.File, $"clinic.json: an inspection of {end.Instrument} has neither photograph nor figures.");
        List<FigureRow> figures = [];
        if (said.ReflectingLeftPercent is { } left) figures.Add(FigureRow.Of(InspectionFigures.ReflectingFractionPercent, "%", new Measured(left, ReflectingUncertaintyPercent), "left"));
        if (said.ReflectingRightPercent is { } right) figures.Add(FigureRow.Of(InspectionFigures.ReflectingFractionPercent, "%", new Measured(right, ReflectingUncertaintyPercent), "right"));
        if (said.WidthLossPercent is { } width) figures.Add(FigureRow.Of(InspectionFigures.JudgedWidthLossPercent, "%", new Measured(width, WidthUncertaintyPercent), shared: SharedShare * WidthUncertaintyPercent));
        if (said.LengthLossMm is { } length) figures.Add(FigureRow.Of(InspectionFigures.LengthLossMm, "mm", new Measured(length, LengthUncertaintyMm), shared: SharedShare * LengthUncertaintyMm));
        return new(
            new()
            {
                By = Staff,
                Instrument = end.Instrument,
                End = end.End,
                Day = inspection.Day,
                IsAsNew = inspection.AsNew,
                Note = inspection.Note,
                ProgramVersion = Terminal.ProgramVersion,
                PolicyName = InventedPolicy,
                PolicyFingerprint = "none",
                Verdict = Kind(said.Verdict),
                Headline = said.Headline,
                Reasons = "Invented for the demonstration: " + said.Reason,
                NextSteps = said.NextStep,
                Origin = FigureOrigin.Invented,
            },
            [.. figures.Select((f, i) => f with { Position = i })], [], new InspectionDocument { JsonGzip = [] });
    }

    private static VerdictKind Kind(string name) => Enum.GetValues<VerdictKind>().FirstOrDefault(k => BookReportCommand.VerdictName(k) == name, VerdictKind.Retake);

    private static DateOnly Day(string text) => DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture);
}
