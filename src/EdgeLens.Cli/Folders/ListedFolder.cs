using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Cli.Folders;

/// <summary>A folder of photographs as its index lists them: docs/commands.md.</summary>
/// <param name="PracticeName">Stands in the reports' heads; null for none.</param>
/// <param name="IsRendered">The photographs are rendered, and the reports must say so.</param>
/// <param name="Card">The card in the photographs.</param>
/// <param name="WorkingEnds">In the order of the index.</param>
public sealed record ListedFolder(string? PracticeName, bool IsRendered, CardDescription Card, ImmutableArray<ListedWorkingEnd> WorkingEnds);

/// <summary>One working end and its history.</summary>
/// <param name="InstrumentId">The practice's own name for the instrument.</param>
/// <param name="WorkingEnd">Which end, counted from 1.</param>
/// <param name="Family">Kind.</param>
/// <param name="WorkingEdge">For an area-specific curette the edge that cuts, if stated.</param>
/// <param name="Inspections">In the order of time.</param>
public sealed record ListedWorkingEnd(
    string InstrumentId, int WorkingEnd, FamilyTraits Family, EdgePart? WorkingEdge, ImmutableArray<ListedInspection> Inspections);

/// <summary>One day's photographs.</summary>
/// <param name="Date">The day.</param>
/// <param name="IsAsNew">The baseline.</param>
/// <param name="Note">What the user wrote.</param>
/// <param name="Photographs">In the order of the index.</param>
public sealed record ListedInspection(DateOnly Date, bool IsAsNew, string? Note, ImmutableArray<ListedPhotograph> Photographs);

/// <summary>One photograph and what the user knows of it.</summary>
/// <param name="Path">Of the file.</param>
/// <param name="View">What it shows; null where nothing is said and the picture must tell.</param>
/// <param name="Print">The card's bars as measured; null when they were not.</param>
/// <param name="HeightOverCardMm">Of the face over the card.</param>
public sealed record ListedPhotograph(string Path, PhotographView? View, PrintMeasurement? Print, Measured HeightOverCardMm)
{
    /// <summary>Initials or staff code of who took it; null where the index does not say.</summary>
    public string? TakenBy { get; init; }

    /// <summary>Decoded already, borrowed from who owns it; null: whoever reads it opens the file.</summary>
    public OpenedPhotograph? Opened { get; init; }
}
