using System.Collections.Immutable;
using EdgeLens.Assessment.Decision;
using EdgeLens.PracticeReports.Plotting;

namespace EdgeLens.PracticeReports.Content;

/// <summary>A part of a report, said once and written as HTML and as PDF alike.</summary>
public abstract record Block;

/// <summary>A heading; it stays with what follows.</summary>
/// <param name="Text">In words.</param>
/// <param name="StartsPage">True to begin a new page on paper.</param>
public sealed record Heading(string Text, bool StartsPage = false) : Block;

/// <summary>A paragraph.</summary>
/// <param name="Text">In words.</param>
/// <param name="IsRemark">Set smaller and softer.</param>
public sealed record Paragraph(string Text, bool IsRemark = false) : Block;

/// <summary>A list.</summary>
/// <param name="Items">One text each.</param>
public sealed record Bullets(ImmutableArray<string> Items) : Block;

/// <summary>What to do, large, with its sign.</summary>
/// <param name="Kind">Its sign is told apart by its shape.</param>
/// <param name="Headline">In a few words.</param>
/// <param name="Reasons">Why.</param>
/// <param name="NextSteps">What next.</param>
public sealed record VerdictBlock(VerdictKind Kind, string Headline, ImmutableArray<string> Reasons, ImmutableArray<string> NextSteps) : Block;

/// <summary>A table; its head is repeated on every page of paper, and no row is broken.</summary>
/// <param name="Columns">From left to right.</param>
/// <param name="Rows">A cell for each column.</param>
public sealed record Table(ImmutableArray<Column> Columns, ImmutableArray<ImmutableArray<Cell>> Rows) : Block;

/// <summary>A column.</summary>
/// <param name="Title">Its head.</param>
/// <param name="Share">Of the table's width, against the other columns' shares.</param>
/// <param name="IsNumber">True to set it flush right.</param>
public sealed record Column(string Title, double Share, bool IsNumber = false);

/// <summary>A cell.</summary>
/// <param name="Text">In words.</param>
/// <param name="Small">A second, softer line or more; null for none.</param>
/// <param name="Sign">A verdict's sign before the text; null for none.</param>
/// <param name="TickBoxes">Boxes to tick on paper, one before each line of the text; 0 for none.</param>
public sealed record Cell(string Text, string? Small = null, VerdictKind? Sign = null, int TickBoxes = 0)
{
    /// <summary>A cell of plain text.</summary>
    public static implicit operator Cell(string text) => new(text);
}

/// <summary>A trend.</summary>
/// <param name="Plot">What it shows.</param>
/// <param name="Caption">Under it, in words: all that the plot says.</param>
public sealed record PlotBlock(TrendPlot Plot, string Caption) : Block;

/// <summary>Pictures side by side.</summary>
/// <param name="Pictures">One to three.</param>
public sealed record PictureRow(ImmutableArray<CaptionedPicture> Pictures) : Block;

/// <summary>A picture.</summary>
/// <param name="Jpeg">The file.</param>
/// <param name="Caption">Under it.</param>
public sealed record CaptionedPicture(ReadOnlyMemory<byte> Jpeg, string Caption);
