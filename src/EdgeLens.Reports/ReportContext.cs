namespace EdgeLens.Reports;

/// <summary>What a report says about itself.</summary>
/// <param name="ProgramVersion">Of EdgeLens.</param>
/// <param name="PracticeName">Stands in the report's head; null for none.</param>
/// <param name="IsRenderedDemo">True when the photographs are rendered and not taken: the report says so in its head and under the picture.</param>
public sealed record ReportContext(string ProgramVersion, string? PracticeName = null, bool IsRenderedDemo = false);
