using System.Collections.Immutable;
using EdgeLens.Records.Sharpening;

namespace EdgeLens.Records.Inspections;

/// <summary>An inspection on its way into the book: it is acknowledged as a whole or not at all.</summary>
/// <param name="Entry">The row; id and time of entry are set by the book.</param>
/// <param name="Figures">In the order of the report.</param>
/// <param name="Photographs">With their bytes, to be kept unaltered; none where nothing was photographed.</param>
/// <param name="Document">What is kept besides.</param>
public sealed record NewInspection(InspectionEntry Entry, ImmutableArray<FigureRow> Figures, ImmutableArray<NewPhotograph> Photographs, InspectionDocument Document)
{
    /// <summary>The sharpening that it comes after, entered with it; null: none.</summary>
    public NewSharpening? Sharpening { get; init; }
}

/// <summary>A sharpening on its way into the book, between two inspections.</summary>
/// <param name="Row">A new row, or one that is there already: then it has its id.</param>
/// <param name="BeforeInspectionId">The inspection before it.</param>
public sealed record NewSharpening(SharpeningRow Row, long BeforeInspectionId);

/// <summary>A photograph on its way into the book.</summary>
/// <param name="Row">What is known of it.</param>
/// <param name="Bytes">The file, unaltered; null: a photograph that the book holds already.</param>
public sealed record NewPhotograph(PhotographRow Row, ReadOnlyMemory<byte>? Bytes);
