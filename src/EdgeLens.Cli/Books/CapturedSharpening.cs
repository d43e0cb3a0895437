using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Sharpening;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Writing;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Sharpening;
using EdgeLens.Store;
using EdgeLens.Web.Capturing;

namespace EdgeLens.Cli.Books;

/// <summary>Puts a photograph that was taken after sharpening beside the one from before.</summary>
internal sealed class CapturedSharpening(RecordBook book, BookInspector inspector)
{
    /// <summary>The inspection from before: the one that was said, else the last of the working end; null when there is none with a photograph.</summary>
    public InspectionEntry? Before(CaptureRequest request, WorkingEnd end)
    {
        InspectionEntry[] earlier =
        [
            .. book.CurrentOf<InspectionEntry>(end.Instrument).Where(i => i.End == end.End && i.When <= request.TakenAt && i.Origin != FigureOrigin.Invented).OrderBy(i => i.When).ThenBy(i => i.Id),
        ];
        InspectionEntry? before = earlier.FirstOrDefault(i => i.Id == request.BeforeInspectionId) ?? earlier.LastOrDefault();
        return before is not null && inspector.Kept(before) is not null ? before : null;
    }

    /// <summary>The sharpening between the two: the one that was logged at the bench, or a new row.</summary>
    public static SharpeningRow Row(RecordBook book, CaptureRequest request, WorkingEnd end, InspectionEntry before)
    {
        DateOnly day = DateOnly.FromDateTime(request.TakenAt);
        // A second earlier than the photograph: by its time the sharpening counts as before it.
        TimeOnly time = TimeOnly.FromDateTime(request.TakenAt.AddSeconds(-1).Date == request.TakenAt.Date ? request.TakenAt.AddSeconds(-1) : request.TakenAt);
        HashSet<long> paired = [.. book.Current<SharpeningPair>().Select(p => p.SharpeningId)];
        SharpeningRow? logged = book.CurrentOf<SharpeningRow>(end.Instrument).LastOrDefault(s => s.End == end.End && !paired.Contains(s.Id) && s.When <= request.TakenAt && (s.Time is null ? s.Day >= before.Day : s.When >= before.When));
        if (logged is { Time: null } && logged.Day == day) return logged with { Id = 0, By = request.By, Time = time, Corrects = logged.Id, CorrectionReason = "photographed before and after" };
        return logged ?? new SharpeningRow { By = request.By, Instrument = end.Instrument, End = end.End, Day = day, Time = time, SharpenedBy = request.SharpenedBy ?? request.By };
    }

    /// <summary>What the sharpening did, a line each; null when the photographs cannot be compared.</summary>
    public static string? Compare(WorkingEndInspector measurer, WorkingEnd end, ListedInspection before, ListedInspection after)
    {
        // The photograph from before stands where the as-new one stands else: what is compared is the same.
        Inspection compared = measurer.Inspect(BookInspector.Listed(end, [before with { IsAsNew = true }, after with { IsAsNew = false }]))[^1].Inspection;
        return SharpeningResult.Of(compared) is { } result ? SharpeningText.Of(compared, result) : null;
    }
}
