using System.Collections.Immutable;

namespace EdgeLens.Reports;

/// <summary>What a report says about itself.</summary>
/// <param name="ProgramVersion">Of EdgeLens.</param>
/// <param name="PracticeName">Stands in the report's head; null for none.</param>
/// <param name="IsRenderedDemo">True when the photographs are rendered and not taken: the report says so in its head and under the picture.</param>
public sealed record ReportContext(string ProgramVersion, string? PracticeName = null, bool IsRenderedDemo = false)
{
    /// <summary>All inspections of this working end that there are reports of, this one too, in the order of time; empty for none.</summary>
    public ImmutableArray<ReportLink> History { get; init; } = [];

    /// <summary>True when the report ends with the uncertainty budgets of all figures.</summary>
    public bool ShowsBudgets { get; init; }

    /// <summary>The page that lists all working ends, from this report's place; null for none.</summary>
    public string? OverviewHref { get; init; }
}

/// <summary>One report among those of a working end.</summary>
/// <param name="Date">Of the inspection.</param>
/// <param name="VerdictName">As in files: it gives the mark its colour.</param>
/// <param name="Headline">What it said.</param>
/// <param name="Href">From the report's place; null for the report itself.</param>
public sealed record ReportLink(DateOnly Date, string VerdictName, string Headline, string? Href);
