using System.Collections.Immutable;
using System.Security.Cryptography;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Review;
using EdgeLens.Reports;
using EdgeLens.Reports.Json;
using EdgeLens.Store;

namespace EdgeLens.Cli.Books;

/// <summary>Between the book and the pipeline: lists kept photographs for measuring, and makes rows of what was found.</summary>
/// <param name="book">That holds them.</param>
/// <param name="policy">Whose limits.</param>
/// <param name="context">What the kept document says about itself.</param>
internal sealed class BookInspector(RecordBook book, Policy policy, ReportContext context)
{
    /// <summary>A working end with the days to be measured.</summary>
    public static ListedWorkingEnd Listed(WorkingEnd end, IEnumerable<ListedInspection> days) => new(end.Instrument, end.End, FamilyTraits.Of(end.Family), end.WorkingEdge, [.. days]);

    /// <summary>An inspection of the book with its kept photographs; null when it has none.</summary>
    public ListedInspection? Kept(InspectionEntry inspection)
    {
        IReadOnlyList<PhotographRow> photographs = book.Photographs(inspection.Id);
        return photographs.Count == 0 ? null : new(inspection.Day, inspection.IsAsNew, inspection.Note, [.. photographs.Select(p => Listed(p, book.PhotographPath(p.Sha256)))]);
    }

    /// <summary>The last as-new inspection of a working end that has photographs.</summary>
    public InspectionEntry? AsNew(WorkingEnd end) => AsNewInspection.Of(book, end.Instrument, end.End);

    /// <summary>A photograph and what is known of it, for measuring.</summary>
    public static ListedPhotograph Listed(PhotographRow row, string path) => new(
        path, row.View, row.BarXMm is { } x && row.BarYMm is { } y ? PrintMeasurement.FromReadings(x, y) : null, new(row.HeightMm, row.HeightStandardUncertaintyMm));

    /// <summary>A new photograph on its way into the book.</summary>
    /// <exception cref="RimException">The file cannot be read.</exception>
    public static NewPhotograph New(string path, PhotographView view, int position, double? barX, double? barY, Measured height)
    {
        byte[] bytes;
        try
        {
            bytes = File.ReadAllBytes(path);
        }
        catch (Exception e) when (Files.InputFile.IsOfTheDisk(e))
        {
            throw new RimException(ExitCode.File, $"{path}: the photograph cannot be read ({e.Message.TrimEnd('.')}).", e);
        }
        return new(
            new PhotographRow
            {
                Position = position,
                FileName = Path.GetFileName(path),
                View = view,
                Sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes)),
                BarXMm = barX,
                BarYMm = barY,
                HeightMm = height.Value,
                HeightStandardUncertaintyMm = height.StandardUncertainty,
            },
            bytes);
    }

    /// <summary>What was found, as rows.</summary>
    /// <param name="seen">By the pipeline.</param>
    /// <param name="by">Who enters it.</param>
    /// <param name="time">Of the day; null: not noted.</param>
    /// <param name="origin">What the photographs are.</param>
    /// <param name="photographs">Of the day.</param>
    /// <param name="remeasures">First inspection of the same photographs; null for this one.</param>
    public NewInspection Found(InspectedDay seen, string by, TimeOnly? time, FigureOrigin origin, ImmutableArray<NewPhotograph> photographs, long? remeasures = null)
    {
        Assessment.Inspections.Inspection inspection = seen.Inspection;
        return new(
            new()
            {
                By = by,
                Instrument = inspection.InstrumentId,
                End = inspection.WorkingEnd,
                Day = inspection.Date,
                Time = time,
                IsAsNew = inspection.IsAsNew,
                Note = inspection.ConditionNote,
                ProgramVersion = Terminal.ProgramVersion,
                PolicyName = inspection.Verdict.PolicyName,
                PolicyFingerprint = PolicyFingerprint.Of(policy, inspection.Family),
                Verdict = inspection.Verdict.Kind,
                Headline = inspection.Verdict.Headline,
                Reasons = string.Join('\n', inspection.Verdict.Reasons.Select(r => r.Words)),
                NextSteps = string.Join('\n', inspection.Verdict.NextSteps),
                Origin = origin,
                Remeasures = remeasures,
            },
            InspectionFigures.Of(inspection, policy.For(inspection.Family)),
            photographs,
            new InspectionDocument
            {
                JsonGzip = InspectionDocument.Pack(InspectionJson.Write(inspection, context)),
                PictureJpeg = seen.Picture is { } picture ? picture.Jpeg.ToArray() : [],
                PictureMmPerPx = seen.Picture?.MmPerPx,
            });
    }
}
