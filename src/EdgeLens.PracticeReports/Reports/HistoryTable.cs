using System.Collections.Immutable;
using System.Globalization;
using EdgeLens.Assessment.Wording;
using EdgeLens.PracticeReports.Content;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Review;

namespace EdgeLens.PracticeReports.Reports;

/// <summary>Inspections, sharpenings, rod tests and use of one working end in order of time, the latest first.</summary>
internal static class HistoryTable
{
    /// <summary>Rows at most; a long life is in the export.</summary>
    private const int MostRows = 60;

    public static Table Of(WorkingEndFile end)
    {
        (DateTime When, ImmutableArray<Cell> Cells)[] events =
        [
            .. end.Inspections.Select(i => (i.When, Inspection(i, end))),
            .. end.Sharpenings.Select(s => (s.When, (ImmutableArray<Cell>)[DateText.Iso(s.Day), "sharpened", new Cell(
                string.Join(", ", new[] { s.SharpenedBy is { } by ? $"by {by}" : null, s.Stone is { } stone ? $"stone {stone}{(s.Zone is { } zone ? FormattableString.Invariant($" zone {zone}") : "")}" : null, s.Strokes is { } strokes ? FormattableString.Invariant($"{strokes} strokes") : null }.OfType<string>()), s.Note), ""])),
            .. end.RodTests.Select(r => (r.When, (ImmutableArray<Cell>)[DateText.Iso(r.Day), "rod test", new Cell(r.Bites ? "bites" : "slides", r.Note), ""])),
        ];
        return new(
            [new("Day", 1.6), new("What", 3), new("Found or done", 4.4), new("Measured by, policy", 3)],
            [.. events.OrderByDescending(e => e.When).Take(MostRows).Select(e => e.Cells)]);
    }

    private static ImmutableArray<Cell> Inspection(InspectionEntry i, WorkingEndFile end)
    {
        string[] wear =
        [
            .. from figure in end.Figures
               where figure.Inspection.Id == i.Id && figure.Figure.Value is not null
               select $"{FigureTable.Title(figure.Figure.Name)}: {ReportSource.FigureWords(figure.Figure)}",
        ];
        string[] small = [.. UseBefore(i, end), .. i.Note is { } note ? [$"Note: {note}"] : Array.Empty<string>(), .. end.SignOffs.Where(s => s.InspectionId == i.Id).Select(s => $"{s.By}: {(s.Agrees == true ? "agrees. " : s.Agrees == false ? "does not agree. " : "")}{s.Comment}")];
        return
        [
            DateText.Iso(i.Day), new Cell(i.IsAsNew ? "as new: " + i.Headline : i.Headline, null, i.Verdict), new Cell(string.Join('\n', wear), small.Length == 0 ? null : string.Join('\n', small)),
            new Cell(WearPoint.SourceOf(i), $"{i.PolicyName} ({i.PolicyFingerprint})"),
        ];
    }

    /// <summary>What it went through since the inspection before.</summary>
    private static IEnumerable<string> UseBefore(InspectionEntry inspection, WorkingEndFile end)
    {
        DateOnly from = end.Inspections.LastOrDefault(i => i.When < inspection.When)?.Day ?? DateOnly.MinValue;
        Records.Uses.Procedure[] uses = [.. end.Procedures.Where(p => p.Day >= from && p.Day < inspection.Day)];
        if (uses.Length > 0) yield return string.Create(CultureInfo.InvariantCulture, $"Used before: {uses.Sum(p => p.LightCases)} light and {uses.Sum(p => p.HeavyCases)} heavy cases");
    }
}
