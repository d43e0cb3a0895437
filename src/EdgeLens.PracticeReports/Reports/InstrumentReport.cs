using System.Collections.Immutable;
using System.Globalization;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Wording;
using EdgeLens.PracticeReports.Content;
using EdgeLens.PracticeReports.Plotting;
using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Review;

namespace EdgeLens.PracticeReports.Reports;

/// <summary>One instrument over the years: what to do, how its wear goes, then and now, last inspection, history.</summary>
public static class InstrumentReport
{
    /// <summary>Makes the report.</summary>
    /// <param name="source">Book, policy, day.</param>
    /// <param name="code">Of the instrument.</param>
    /// <param name="withUncertainty">True for the annex on where the uncertainties come from.</param>
    /// <exception cref="BookException">The book has no such instrument.</exception>
    public static PracticeReport Build(ReportSource source, string code, bool withUncertainty = false)
    {
        ArgumentNullException.ThrowIfNull(source);
        PracticeFile file = PracticeFile.Read(source.Book, WearSeries.FigureNames, code);
        if (file.WorkingEnds.IsEmpty) throw new BookException($"The book has no instrument {code} with a working end.");
        WorkingEndFile first = file.WorkingEnds[0];
        ImmutableArray<string> facts =
        [
            .. first.Instrument.Description is { } description ? [description] : Array.Empty<string>(),
            first.Cassette is { } cassette ? $"cassette {cassette}" : "in no cassette",
            ReportSource.StateWords(first),
            .. first.Instrument.PurchasedOn is { } bought ? [$"bought {DateText.Iso(bought)}"] : Array.Empty<string>(),
            first.Instrument.Price is { } price ? $"a new one costs {ReportSource.Money(price, file)}" : "price not in the book",
        ];
        return new(code, facts, [.. file.WorkingEnds.SelectMany((end, i) => EndBlocks(source, file, end, i > 0, withUncertainty)), .. ReportSource.Cautions()], source.About(file));
    }

    private static IEnumerable<Block> EndBlocks(ReportSource source, PracticeFile file, WorkingEndFile end, bool startsPage, bool withUncertainty)
    {
        yield return new Heading(FormattableString.Invariant($"End {end.End.End}: {FamilyTraits.Of(end.End.Family).Title}"), startsPage);
        if (end.Latest is not { } latest)
        {
            yield return new Paragraph("It was never inspected.");
            yield return new Heading("History");
            yield return HistoryTable.Of(end);
            yield break;
        }
        yield return new Paragraph($"Last inspected {DateText.Iso(latest.Day)}; figures: {WearPoint.SourceOf(latest)}; policy {latest.PolicyName} ({latest.PolicyFingerprint}).{(end.SharpeningsSinceLatest > 0 ? " It was sharpened since: the verdict below is of the past." : "")}", IsRemark: true);
        yield return new VerdictBlock(latest.Verdict, latest.Headline, ReportSource.Lines(latest.Reasons), ReportSource.Lines(latest.NextSteps));
        foreach (Block block in Plan(source, file, end)) yield return block;
        foreach (Block block in Wear(source, end)) yield return block;
        foreach (Block block in Pictures(source, end)) yield return block;
        yield return new Heading($"Figures of {DateText.Iso(latest.Day)}");
        foreach (Table table in FigureTable.Of(source.Book.Figures(latest.Id), end.End.Family)) yield return table;
        yield return new Heading("History");
        yield return HistoryTable.Of(end);
        if (VersionRemark(end) is { } remark) yield return new Paragraph(remark, IsRemark: true);
        if (withUncertainty) foreach (Block block in UncertaintyAnnex.Of(source.Book, latest)) yield return block;
    }

    private static IEnumerable<Block> Plan(ReportSource source, PracticeFile file, WorkingEndFile end)
    {
        if (end.State == Records.Instruments.InstrumentState.Retired) yield break;
        yield return new Heading("Plan");
        yield return new Bullets(
        [
            .. PracticeReview.Plan(end, source.Policy, source.Day, source.Planning).Select(item => string.Create(CultureInfo.InvariantCulture,
                $"{ReportSource.ActionWords(item)}{(item.DueBy is { } due ? item.Action == PlanAction.Keep ? $"; inspect again by {due:yyyy-MM-dd}" : $" by {due:yyyy-MM-dd}" : " now")}{(item.Cost is { } cost ? $" ({ReportSource.Money(cost, file)})" : item.IsPriceMissing ? " (price not in the book)" : "")}. {item.Reasons.FirstOrDefault()}")),
            .. WearSeries.Of(end, source.Policy.For(end.End.Family)).Where(s => s.Points.Length > 0).Select(PracticeReview.ForecastWords),
        ]);
    }

    private static IEnumerable<Block> Wear(ReportSource source, WorkingEndFile end)
    {
        WearSeries[] series = [.. WearSeries.Of(end, source.Policy.For(end.End.Family)).Where(s => s.Points.Length + s.LeftOut.Length > 0)];
        if (series.Length == 0) yield break;
        yield return new Heading("How the wear goes");
        foreach (WearSeries s in series) yield return new PlotBlock(TrendPlot.Of(s, end), Caption(s));
    }

    private static string Caption(WearSeries series)
    {
        string left = series.LeftOut.IsEmpty ? "" : string.Create(CultureInfo.InvariantCulture,
            $" {series.LeftOut.Length} hollow {(series.LeftOut.Length == 1 ? "point is" : "points are")} of another source ({string.Join("; ", series.LeftOut.Select(p => WearPoint.SourceOf(p.Inspection)).Distinct())}) and no part of the trend; `book remeasure` measures kept photographs again with one version.");
        string trend = series.Trend.TryGet(out Assessment.Trend.WearTrend? known, out Geometry.Figures.Refusal? why)
            ? string.Join(' ', known.Remarks.Prepend(known.LossPerSharpening.Measured is { } per ? $"A sharpening costs {FigureText.WithUncertainty(per, series.Measure.Unit)} on average." : ""))
            : $"No trend: {why.Reason}";
        return $"{series.Title} against as-new, with k = 2. Figures: {series.Source}. {trend.Trim()}{left}";
    }

    private static IEnumerable<Block> Pictures(ReportSource source, WorkingEndFile end)
    {
        CaptionedPicture[] pictures =
        [
            .. new[] { end.AsNew, end.Latest }.OfType<InspectionEntry>().DistinctBy(i => i.Id)
                .Select(i => (Inspection: i, Document: source.Book.Document(i.Id))).Where(p => p.Document is { PictureJpeg.Length: > 0 })
                .Select(p => new CaptionedPicture(p.Document!.PictureJpeg, $"{(p.Inspection.IsAsNew ? "As new" : p.Inspection.Headline)}, {DateText.Iso(p.Inspection.Day)}{(p.Inspection.Origin == FigureOrigin.RenderedPhotographs ? " (rendered, not real steel)" : "")}")),
        ];
        if (pictures.Length == 0) yield break;
        yield return new Heading("Then and now");
        yield return new PictureRow([.. pictures]);
    }

    private static string? VersionRemark(WorkingEndFile end)
    {
        string[] sources = [.. end.Inspections.Select(WearPoint.SourceOf).Distinct()];
        return sources.Length < 2 ? null : $"These inspections come from several sources ({string.Join("; ", sources)}). A trend joins those of one only.";
    }
}
