using EdgeLens.Geometry.Figures;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;

namespace EdgeLens.Web.Capturing;

/// <summary>A photograph on its way to be measured.</summary>
/// <param name="End">Which working end, as the user says.</param>
/// <param name="By">Staff code.</param>
/// <param name="Path">Where the upload lies until it is measured; nothing about it has been checked but its length.</param>
/// <param name="FileName">For the book: made by us, never the name that the device gave.</param>
/// <param name="TakenAt">By the server's clock.</param>
/// <param name="Note">Of the user; null: none.</param>
/// <param name="IsAsNew">The baseline for later ones.</param>
public sealed record CaptureRequest(WorkingEnd End, string By, string Path, string FileName, DateTime TakenAt, string? Note, bool IsAsNew);

/// <summary>What came of it: rows for the book and two pictures of it for people, or why not.</summary>
/// <param name="Found">Null when the photograph was refused.</param>
/// <param name="PictureSvg">The photograph with the edge drawn, a picture file on its own; null: none.</param>
/// <param name="ReportHtml">The whole report; null: none.</param>
/// <param name="Refusal">Null when it was measured.</param>
public sealed record CaptureOutcome(NewInspection? Found, string? PictureSvg, string? ReportHtml, Refusal? Refusal)
{
    /// <summary>The photograph in the frame of the as-new one; null: none.</summary>
    public RegisteredFace? Registered { get; init; }
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
