using System.Collections.Immutable;

namespace EdgeLens.Accuracy.Truth;

/// <summary><c>index.json</c>: what a user would know of each photograph. Property names are those of the file in snake case.</summary>
/// <param name="Card">File of the card's description, from the folder.</param>
/// <param name="Instruments">Working ends with their inspections.</param>
/// <param name="Refuse">Photographs that must be refused.</param>
public sealed record DatasetIndex(string Card, ImmutableArray<WorkingEndEntry> Instruments, ImmutableArray<RefuseEntry> Refuse);

/// <summary>One working end.</summary>
/// <param name="Id">Name of its folder.</param>
/// <param name="Family">As on the command line.</param>
/// <param name="Inspections">In the order of time; the as-new one first.</param>
public sealed record WorkingEndEntry(string Id, string Family, ImmutableArray<InspectionEntry> Inspections);

/// <summary>One day's photographs.</summary>
/// <param name="Date">ISO 8601.</param>
/// <param name="AsNew">The baseline.</param>
/// <param name="Photos">One per view.</param>
public sealed record InspectionEntry(string Date, bool AsNew, ImmutableArray<PhotoEntry> Photos);

/// <summary>One photograph and what the user knows.</summary>
/// <param name="File">From the folder.</param>
/// <param name="View">face, toe or side.</param>
/// <param name="Truth">File of the truth, from the folder.</param>
/// <param name="BarsMeasuredMm">The card's two bars by caliper: x, y.</param>
/// <param name="HeightOverCardMm">Nominal height of the face over the card.</param>
/// <param name="HeightLimitMm">It is within ± this (rectangular); null where the view needs no height.</param>
public sealed record PhotoEntry(string File, string View, string Truth, ImmutableArray<double> BarsMeasuredMm, double HeightOverCardMm, double? HeightLimitMm);

/// <summary>A photograph that must be refused.</summary>
/// <param name="File">From the folder.</param>
/// <param name="View">face, toe or side.</param>
/// <param name="Family">What the user says it shows.</param>
/// <param name="Reason">Code of the right refusal.</param>
public sealed record RefuseEntry(string File, string View, string Family, string Reason);
