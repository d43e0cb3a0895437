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
public sealed record CaptureOutcome(NewInspection? Found, string? PictureSvg, string? ReportHtml, Refusal? Refusal);

/// <summary>Reads, checks, measures and judges one photograph; called from several threads.</summary>
public delegate CaptureOutcome MeasureCapture(CaptureRequest request);

/// <summary>Makes ready for a photograph of a working end; called from several threads.</summary>
public delegate void PrepareCapture(WorkingEnd end);
