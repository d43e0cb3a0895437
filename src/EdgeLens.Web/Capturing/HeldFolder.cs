using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Web.Serving;

namespace EdgeLens.Web.Capturing;

/// <summary>
/// Photographs that are good but leave a question: whose they are, or what they show. They lie in <c>web/held</c> of the book's folder until their sender answers or throws them
/// away, also over a restart.
/// </summary>
internal sealed class HeldFolder
{
    private readonly string _folder;

    public HeldFolder(string bookFolder)
    {
        _folder = Path.Combine(bookFolder, "web", "held");
        WebFile.MakeFolder(_folder);
    }

    /// <summary>Takes over an upload with its question.</summary>
    /// <returns>Its id.</returns>
    public string Keep(CaptureRequest request, Refusal question, ImmutableArray<WorkingEnd> offered)
    {
        string id = Path.GetFileName(request.Path), path = Path.Combine(_folder, id);
        // The note first: a photograph without one would be forgotten, a note without photograph is not listed.
        WebFile.WriteJson(path + ".json", new HeldPhotograph
        {
            Id = id,
            By = request.By,
            FileName = request.FileName,
            TakenAt = request.TakenAt,
            Note = request.Note,
            IsAsNew = request.IsAsNew,
            View = request.View,
            Moment = request.Moment,
            BeforeInspectionId = request.BeforeInspectionId,
            SharpenedBy = request.SharpenedBy,
            Offered = [.. offered.Select(e => new OfferedEnd(e.Instrument, e.End))],
            Code = question.Code,
            Reason = question.Reason,
            Advice = question.Advice,
        });
        if (request.Path != path) File.Move(request.Path, path, overwrite: true);
        return id;
    }

    /// <summary>What waits for an answer of somebody, the oldest first.</summary>
    public HeldPhotograph[] Of(string by) =>
    [
        .. Directory.EnumerateFiles(_folder, "*.json").Select(p => Find(Path.GetFileNameWithoutExtension(p), by)).OfType<HeldPhotograph>().OrderBy(h => h.TakenAt),
    ];

    /// <summary>Null when there is none, or it is somebody else's.</summary>
    public HeldPhotograph? Find(string id, string by) =>
        IncomingFolder.IsId(id) && File.Exists(PathOf(id)) && WebFile.ReadJson<HeldPhotograph>(PathOf(id) + ".json") is { } held && held.By == by ? held : null;

    public string PathOf(string id) => Path.Combine(_folder, id);

    /// <summary>Photograph and question go; done once the photograph is in the book, was refused, or its sender throws it away.</summary>
    public void Remove(string id)
    {
        if (!IncomingFolder.IsId(id)) return;
        File.Delete(PathOf(id));
        File.Delete(PathOf(id) + ".json");
    }

    public bool Holds(string path) => Path.GetDirectoryName(path) == _folder;
}

/// <summary>A photograph with a question.</summary>
internal sealed record HeldPhotograph
{
    public required string Id { get; init; }

    public required string By { get; init; }

    public required string FileName { get; init; }

    public required DateTime TakenAt { get; init; }

    public string? Note { get; init; }

    public bool IsAsNew { get; init; }

    public PhotographView? View { get; init; }

    public InspectionMoment? Moment { get; init; }

    public long? BeforeInspectionId { get; init; }

    public string? SharpenedBy { get; init; }

    /// <summary>Which it may be, the likeliest first.</summary>
    public OfferedEnd[] Offered { get; init; } = [];

    /// <summary>Of the question.</summary>
    public required string Code { get; init; }

    public required string Reason { get; init; }

    public required string Advice { get; init; }

    /// <summary>With the answer, to be measured: whoever answered has looked.</summary>
    public CaptureRequest Answered(WorkingEnd end, PhotographView? view, string path) => new(end, By, path, FileName, TakenAt, Note, IsAsNew)
    {
        View = view,
        Moment = Moment,
        BeforeInspectionId = BeforeInspectionId,
        SharpenedBy = SharpenedBy,
        IgnoresTag = true,
    };
}

/// <summary>A working end by name.</summary>
internal sealed record OfferedEnd(string Instrument, int End);
