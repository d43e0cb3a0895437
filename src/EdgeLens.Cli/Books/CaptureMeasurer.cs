using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Measuring.Pictures;
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
        InspectedDay seen = Inspector().Inspect(BookInspector.Listed(end, isFirst ? [day, day with { IsAsNew = false }] : [day]))[^1];
        if (isFirst && ReportFolder.Shown(seen) is not null) ReportFolder.Html(seen, context);
    }

    /// <summary>One upload. What cannot be measured does not enter the book: it is to be taken again at once.</summary>
    public CaptureOutcome Measure(CaptureRequest request)
    {
        Practice? practice = book.Current<Practice>().SingleOrDefault();
        ReportContext context = new(Terminal.ProgramVersion, practice?.Name, practice?.IsDemo ?? false);
        BookInspector inspector = new(book, policy, context);
        Measured heightMm = new(0, Quadrature.FromLimits(FolderIndex.UsualHeightLimitMm));
        NewPhotograph read = BookInspector.New(request.Path, PhotographView.Face, 0, print?.BarXMm.Value, print?.BarYMm.Value, heightMm);
        NewPhotograph photograph = read with { Row = read.Row with { FileName = request.FileName } };
        ListedInspection today = new(DateOnly.FromDateTime(request.TakenAt), request.IsAsNew, request.Note, [BookInspector.Listed(photograph.Row, request.Path)]);
        InspectionEntry? asNew = today.IsAsNew ? null : inspector.AsNew(request.End);
        ListedInspection? baseline = asNew is null ? null : inspector.Kept(asNew);
        InspectedDay seen = Inspector().Inspect(BookInspector.Listed(request.End, baseline is null ? [today] : [baseline, today]))[^1];
        if (seen.Inspection.Today is null) return new(null, null, null, WhyNot(seen));
        NewInspection found = inspector.Found(seen, request.By, TimeOnly.FromDateTime(request.TakenAt), practice?.IsDemo == true ? FigureOrigin.RenderedPhotographs : FigureOrigin.Photographs, [photograph]);
        RegisteredPicture? registered = seen.Picture?.Registered;
        return new(found, ReportFolder.Shown(seen) is { } shown ? PhotographPicture.ToSvg(seen.Inspection, shown) : null, ReportFolder.Html(seen, context), null)
        {
            Registered = registered is null ? null : new(asNew?.Id, registered.Jpeg.ToArray()),
        };
    }

    /// <summary>The photograph of a kept inspection in the frame of the as-new one; null where they cannot be registered.</summary>
    public RegisteredFace? Register(InspectionEntry inspection)
    {
        BookInspector inspector = new(book, policy, new(Terminal.ProgramVersion, null, false));
        if (book.CurrentOf<WorkingEnd>(inspection.Instrument).FirstOrDefault(e => e.End == inspection.End) is not { } end) return null;
        if (inspector.AsNew(end) is not { } asNew || inspector.Kept(asNew) is not { } first || inspector.Kept(inspection) is not { } day) return null;
        InspectedDay seen = Inspector().Inspect(BookInspector.Listed(end, inspection.Id == asNew.Id ? [first] : [first, day with { IsAsNew = false }]))[^1];
        return seen.Picture?.Registered is { } picture ? new(asNew.Id, picture.Jpeg.ToArray()) : null;
    }

    private WorkingEndInspector Inspector() => new(reader, policy, _ => { }, _kept);

    private static Refusal WhyNot(InspectedDay seen) => seen.Inspection.Refusals.FirstOrDefault(r => r.Subject == Assessment.Inspections.RefusedSubject.TodayFaceView)?.Refusal
        ?? throw new InvalidOperationException("A face view that was not measured has no reason.");
}
