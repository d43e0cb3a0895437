using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;

namespace EdgeLens.Web.Capturing;

/// <summary>A photograph on its way to be measured.</summary>
/// <param name="End">Which working end, as the user says; null: the tag in the photograph says it.</param>
/// <param name="By">Staff code.</param>
/// <param name="Path">Where the upload lies until it is measured; nothing about it has been checked but its length.</param>
/// <param name="FileName">For the book: made by us, never the name that the device gave.</param>
/// <param name="TakenAt">By the server's clock.</param>
/// <param name="Note">Of the user; null: none.</param>
/// <param name="IsAsNew">The baseline for later ones.</param>
public sealed record CaptureRequest(WorkingEnd? End, string By, string Path, string FileName, DateTime TakenAt, string? Note, bool IsAsNew)
{
    /// <summary>As the user says; null: the picture tells.</summary>
    public PhotographView? View { get; init; }

    /// <summary>As the user says; null: not noted.</summary>
    public InspectionMoment? Moment { get; init; }

    /// <summary>After a sharpening: the inspection before it; null: the last one of the working end.</summary>
    public long? BeforeInspectionId { get; init; }

    /// <summary>After a sharpening: staff code of who sharpened; null: who photographs.</summary>
    public string? SharpenedBy { get; init; }

    /// <summary>True where a user has looked at what the tag says and chosen.</summary>
    public bool IgnoresTag { get; init; }
}

/// <summary>What came of it: rows for the book and two pictures of it for people, or why not.</summary>
/// <param name="Found">Null when the photograph was refused.</param>
/// <param name="PictureSvg">The photograph with the edge drawn, a picture file on its own; null: none.</param>
/// <param name="ReportHtml">The whole report; null: none.</param>
/// <param name="Refusal">Null when it was measured.</param>
public sealed record CaptureOutcome(NewInspection? Found, string? PictureSvg, string? ReportHtml, Refusal? Refusal)
{
    /// <summary>The photograph in the frame of the as-new one; null: none.</summary>
    public RegisteredFace? Registered { get; init; }

    /// <summary>Number of the tag that named the working end; null: none did.</summary>
    public int? Tag { get; init; }

    /// <summary>What a sharpening did, a line each; null: there is no photograph from before.</summary>
    public string? SharpeningText { get; init; }

    /// <summary>True where the refusal is a question to the user and the photograph is to be kept until it is answered.</summary>
    public bool IsQuestion { get; init; }

    /// <summary>With a question: the working ends that it may be, the likeliest first.</summary>
    public ImmutableArray<WorkingEnd> Offered { get; init; } = [];

    /// <summary>The inspection that holds this very photograph already: a device sent it twice.</summary>
    public long? EnteredAs { get; init; }
}

/// <summary>A photograph drawn in the frame of the as-new outline of its working end: laid over others of the same frame, the same steel lies at the same place.</summary>
/// <param name="AsNewId">Row of the as-new inspection; null: the photograph is itself the as-new one, whose row is still to be made.</param>
/// <param name="Jpeg">The file.</param>
public sealed record RegisteredFace(long? AsNewId, byte[] Jpeg);

/// <summary>Draws the photograph of an inspection in the frame of the as-new one; null where that cannot be done. Called from several threads.</summary>
public delegate RegisteredFace? RegisterFace(InspectionEntry inspection);

/// <summary>Reads, checks, measures and judges one photograph; called from several threads.</summary>
public delegate CaptureOutcome MeasureCapture(CaptureRequest request);

/// <summary>Makes ready for a photograph of a working end; called from several threads.</summary>
public delegate void PrepareCapture(WorkingEnd end);
