using System.Collections.Immutable;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Reports;
using EdgeLens.Reports.Html;
using EdgeLens.Store;
using EdgeLens.Web.Capturing;

namespace EdgeLens.Cli.Books;

/// <summary>Measures the web app's uploads as <c>book inspect</c> does: against the kept as-new photographs, with the server's card and lens.</summary>
/// <param name="book">That holds them.</param>
/// <param name="policy">Whose limits.</param>
/// <param name="reader">Reads photographs; it holds no state, so that several uploads may use it at once.</param>
/// <param name="print">The practice's card as measured by caliper; null: not measured.</param>
internal sealed class CaptureMeasurer(RecordBook book, Policy policy, ViewReader reader, PrintMeasurement? print)
{
    /// <summary>As-new days in memory: what is photographed in one session is one or two cassettes of some ten instruments.</summary>
    private const int KeptDays = 32;

    private readonly KeptReadings _kept = new(KeptDays);
    private int _isWarm;

    /// <summary>Measures the as-new photographs of a working end, so that a later one of it need not wait for them.</summary>
    public void Prepare(WorkingEnd end)
    {
        ReportContext context = new(Terminal.ProgramVersion, null, false);
        BookInspector inspector = new(book, policy, context);
        if (inspector.AsNew(end) is not { } asNew || inspector.Kept(asNew) is not { } day) return;
        // The first time everything is run once to the report: what runs first is compiled first, which takes as long as measuring.
        bool isFirst = Interlocked.Exchange(ref _isWarm, 1) == 0;
        InspectedDay seen = EndInspector().Inspect(BookInspector.Listed(end, isFirst ? [day, day with { IsAsNew = false }] : [day]))[^1];
        if (isFirst && ReportFolder.Shown(seen) is not null) ReportFolder.Html(seen, context);
    }

    /// <summary>One upload. What cannot be measured does not enter the book: it is to be taken again at once. What is good but leaves a question is asked.</summary>
    public CaptureOutcome Measure(CaptureRequest request)
    {
        Measured heightMm = new(0, Quadrature.FromLimits(FolderIndex.UsualHeightLimitMm));
        NewPhotograph read = BookInspector.New(request.Path, request.View ?? PhotographView.Face, 0, print?.BarXMm.Value, print?.BarYMm.Value, heightMm);
        NewPhotograph photograph = read with { Row = read.Row with { FileName = request.FileName } };
        if (book.InspectionWith(read.Row.Sha256, NameEnding(request.FileName)) is { } there) return new(null, null, null, null) { EnteredAs = there };
        ListedPhotograph listed = BookInspector.Listed(photograph.Row, request.Path) with { View = request.View };
        if (!reader.Open(listed).TryGet(out OpenedPhotograph? opened, out Refusal? refusal)) return Refused(refusal);
        using (opened)
        {
            // Without its card it shows no tag either: the card's refusal comes first.
            if (request.End is null && !opened.Calibration.TryGet(out _, out refusal)) return Refused(refusal);
            ImmutableArray<int> tags = Tags(request, opened);
            if (!EndFromTag.Decide(book, request.End, tags).TryGet(out TaggedEnd? known, out refusal)) return Question(refusal) with { Offered = [.. Offered(request.End, tags)] };
            FamilyTraits family = FamilyTraits.Of(known.End.Family);
            PhotographView view = request.View ?? reader.ViewOf(opened, family) ?? PhotographView.Face;
            photograph = photograph with { Row = photograph.Row with { View = view } };
            listed = listed with { Opened = opened };
            CaptureOutcome outcome = view == PhotographView.Face ? Face(request, known.End, photograph, listed) : Angles(request, known.End, photograph, listed with { View = request.View ?? view });
            return outcome with { Tag = known.Tag, Offered = [known.End] };
        }
    }

    /// <summary>Names are made of the time and an id, and a time that is told again may be a second off.</summary>
    private static string NameEnding(string fileName) => fileName[fileName.LastIndexOf('-')..];

    /// <summary>None where the user has chosen in spite of them. Reading tags takes a tenth of a second: a practice that has none does not pay for it.</summary>
    private ImmutableArray<int> Tags(CaptureRequest request, OpenedPhotograph opened) =>
        request.End is null || (!request.IgnoresTag && book.Current<EndTag>().Count > 0) ? opened.ReadTags() : [];

    private IEnumerable<WorkingEnd> Offered(WorkingEnd? chosen, ImmutableArray<int> tags)
    {
        IEnumerable<WorkingEnd> tagged = from tag in book.Current<EndTag>() where tags.Contains(tag.Number) from end in book.CurrentOf<WorkingEnd>(tag.Instrument) where end.End == tag.End select end;
        return (chosen is null ? tagged : tagged.Append(chosen)).Distinct();
    }

    private CaptureOutcome Face(CaptureRequest request, WorkingEnd end, NewPhotograph photograph, ListedPhotograph listed)
    {
        (BookInspector inspector, ReportContext context, FigureOrigin origin) = Inspector();
        ListedInspection today = new(DateOnly.FromDateTime(request.TakenAt), request.IsAsNew, request.Note, [listed]);
        (InspectedDay seen, long? asNewId) = Inspect(end, inspector, today);
        if (seen.Inspection.Today is null) return WhyNot(seen, RefusedSubject.TodayFaceView);
        NewInspection found = inspector.Found(seen, request.By, TimeOnly.FromDateTime(request.TakenAt), origin, [photograph]);
        found = found with { Entry = found.Entry with { Moment = request.Moment } };
        string? sharpened = null;
        if (request.Moment == InspectionMoment.AfterSharpening && new CapturedSharpening(book, inspector).Before(request, end) is { } before)
        {
            found = found with { Sharpening = new(CapturedSharpening.Row(book, request, end, before), before.Id) };
            sharpened = CapturedSharpening.Compare(EndInspector(), end, inspector.Kept(before)!, today);
        }
        return new(found, Picture(seen), ReportFolder.Html(seen, context), null) { SharpeningText = sharpened, Registered = Registered(seen, asNewId) };
    }

    /// <summary>A toe or side view joins the face view of its day: the inspection is judged anew, with the angles, and takes the place of the one without.</summary>
    private CaptureOutcome Angles(CaptureRequest request, WorkingEnd end, NewPhotograph photograph, ListedPhotograph listed)
    {
        (BookInspector inspector, ReportContext context, FigureOrigin origin) = Inspector();
        DateOnly day = DateOnly.FromDateTime(request.TakenAt);
        InspectionEntry? face = book.CurrentOf<InspectionEntry>(end.Instrument).Where(i => i.End == end.End && i.Day == day && i.Remeasures is null).OrderBy(i => i.When).ThenBy(i => i.Id).LastOrDefault();
        if (face is null || book.Photographs(face.Id).FirstOrDefault(p => p.View == PhotographView.Face) is not { } kept)
            return Question(new("angles-without-face", $"This is a {photograph.Row.View.ToString().ToLowerInvariant()} view, and there is no face view of {Records.Book.EntryRules.Key(end.Instrument, end.End)} of that day yet.", "Take the face view first, then file this photograph: it waits."));
        ListedInspection today = new(day, face.IsAsNew, face.Note, [BookInspector.Listed(kept, book.PhotographPath(kept.Sha256)), listed]);
        (InspectedDay seen, long? asNewId) = Inspect(end, inspector, today, except: face.Id);
        if (seen.Inspection.TodayAngles is null) return WhyNot(seen, RefusedSubject.TodayAngleView);
        ImmutableArray<NewPhotograph> photographs = [new(kept with { Position = 0 }, null), photograph with { Row = photograph.Row with { Position = 1 } }];
        NewInspection found = inspector.Found(seen, request.By, face.Time, origin, photographs);
        found = found with { Entry = found.Entry with { Moment = face.Moment, Corrects = face.Id, CorrectionReason = $"{photograph.Row.View.ToString().ToLowerInvariant()} view added" } };
        return new(found, Picture(seen), ReportFolder.Html(seen, context), null) { Registered = Registered(seen, asNewId) };
    }

    /// <summary>Inspects against the as-new inspection, whose row is told too; null: there is none that is kept.</summary>
    private (InspectedDay Seen, long? AsNewId) Inspect(WorkingEnd end, BookInspector inspector, ListedInspection today, long? except = null)
    {
        InspectionEntry? first = today.IsAsNew ? null : inspector.AsNew(end);
        ListedInspection? baseline = first is null || first.Id == except ? null : inspector.Kept(first);
        InspectedDay seen = EndInspector().Inspect(BookInspector.Listed(end, baseline is null ? [today] : [baseline, today]))[^1];
        return (seen, baseline is null ? null : first!.Id);
    }

    private (BookInspector, ReportContext, FigureOrigin) Inspector()
    {
        Practice? practice = book.Current<Practice>().SingleOrDefault();
        ReportContext context = new(Terminal.ProgramVersion, practice?.Name, practice?.IsDemo ?? false);
        return (new(book, policy, context), context, practice?.IsDemo == true ? FigureOrigin.RenderedPhotographs : FigureOrigin.Photographs);
    }

    /// <summary>The photograph of a kept inspection in the frame of the as-new one; null where they cannot be registered.</summary>
    public RegisteredFace? Register(InspectionEntry inspection)
    {
        BookInspector inspector = new(book, policy, new(Terminal.ProgramVersion, null, false));
        if (book.CurrentOf<WorkingEnd>(inspection.Instrument).FirstOrDefault(e => e.End == inspection.End) is not { } end) return null;
        if (inspector.AsNew(end) is not { } asNew || inspector.Kept(asNew) is not { } first || inspector.Kept(inspection) is not { } day) return null;
        InspectedDay seen = EndInspector().Inspect(BookInspector.Listed(end, inspection.Id == asNew.Id ? [first] : [first, day with { IsAsNew = false }]))[^1];
        return Registered(seen, asNew.Id);
    }

    private WorkingEndInspector EndInspector() => new(reader, policy, _ => { }, _kept);

    private static RegisteredFace? Registered(InspectedDay seen, long? asNewId) => seen.Picture?.Registered is { } picture ? new(asNewId, picture.Jpeg.ToArray()) : null;

    private static string? Picture(InspectedDay seen) => ReportFolder.Shown(seen) is { } shown ? PhotographPicture.ToSvg(seen.Inspection, shown) : null;

    private static CaptureOutcome Refused(Refusal why) => new(null, null, null, why);

    private static CaptureOutcome Question(Refusal question) => Refused(question) with { IsQuestion = true };

    /// <summary>Another view than was said is a question, not a bad photograph.</summary>
    private static CaptureOutcome WhyNot(InspectedDay seen, RefusedSubject subject)
    {
        Refusal why = seen.Inspection.Refusals.FirstOrDefault(r => r.Subject == subject)?.Refusal ?? throw new InvalidOperationException("A view that was not measured has no reason.");
        return why.Code == "wrong-view" ? Question(why) : Refused(why);
    }
}
