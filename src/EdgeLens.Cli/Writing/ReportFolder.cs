using System.Collections.Immutable;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Measuring.Pictures;
using EdgeLens.Reports;
using EdgeLens.Reports.Html;
using EdgeLens.Reports.Json;

namespace EdgeLens.Cli.Writing;

/// <summary>Writes a folder of reports: HTML and JSON for each inspection, and an overview of the latest of each working end.</summary>
/// <param name="folder">Made when it is not there. Files of the same names are replaced, each in one step; others are left alone.</param>
/// <param name="context">What the reports say about themselves.</param>
public sealed class ReportFolder(string folder, ReportContext context)
{
    private readonly ReportNames _names = new();
    private readonly List<OverviewEntry> _entries = [];

    /// <summary>The overview's path.</summary>
    public string OverviewPath => Path.Combine(folder, "index.html");

    /// <summary>Writes the reports of one working end, with links between them.</summary>
    /// <param name="days">In the order of time; at least one.</param>
    /// <returns>One for each day.</returns>
    /// <exception cref="RimException">A file cannot be written.</exception>
    public ImmutableArray<WrittenReport> Write(ImmutableArray<InspectedDay> days)
    {
        string[] stems = [.. days.Select(d => _names.Take(d.Inspection.InstrumentId, d.Inspection.WorkingEnd, d.Inspection.Date))];
        ImmutableArray<WrittenReport>.Builder written = ImmutableArray.CreateBuilder<WrittenReport>();
        for (int i = 0; i < days.Length; i++)
        {
            int self = i;
            ReportContext own = context with
            {
                OverviewHref = "index.html",
                History = [.. days.Select((d, k) => new ReportLink(d.Inspection.Date, d.Inspection.Verdict.KindName, d.Inspection.Verdict.Headline, k == self ? null : Href(stems[k])))],
            };
            WrittenReport report = new(days[i], Path.Combine(folder, stems[i] + ".json"), Path.Combine(folder, stems[i] + ".html"));
            AtomicFile.Write(report.JsonPath, InspectionJson.Write(days[i].Inspection, own));
            AtomicFile.Write(report.HtmlPath, Html(days[i], own));
            written.Add(report);
        }
        _entries.Add(new(days[^1].Inspection, Href(stems[^1]), days.Length));
        return written.ToImmutable();
    }

    /// <summary>Writes the overview of all that was written so far.</summary>
    /// <exception cref="RimException">The file cannot be written.</exception>
    public void WriteOverview() => AtomicFile.Write(OverviewPath, OverviewPage.ToHtml([.. _entries], context));

    /// <summary>The report of one day as a page.</summary>
    public static string Html(InspectedDay day, ReportContext context) => InspectionReport.ToHtml(day.Inspection, Shown(day), context,
        [.. day.AnglePictures.Select(p => new ReportAnglePhotograph(p.Jpeg, p.WidthPx, p.HeightPx, p.Lines))]);

    /// <summary>The crop of the face view as reports show it; null when there is none.</summary>
    public static ReportPhotograph? Shown(InspectedDay day) => day.Picture is { } picture ? Shown(picture) : null;

    private static ReportPhotograph Shown(WorkingEndPicture picture) =>
        new(picture.Jpeg, picture.WidthPx, picture.HeightPx, picture.OutlinePx, picture.MmPerPx)
        {
            BaselineOutlinePx = picture.BaselineOutlinePx,
            Edges = [.. picture.Edges.Select(e => new ReportEdgeStrip(e.Part, e.Jpeg, e.FromMm, e.ToMm, e.OutsideMm / (e.OutsideMm + e.InsideMm)))],
        };

    // Names hold nothing but letters, digits and "-_.": no character of theirs means something in an address.
    private static string Href(string stem) => stem + ".html";
}

/// <summary>Where the report of one day is.</summary>
/// <param name="Day">What it is of.</param>
/// <param name="JsonPath">For programs.</param>
/// <param name="HtmlPath">For people.</param>
public sealed record WrittenReport(InspectedDay Day, string JsonPath, string HtmlPath);
