using System.Collections.Immutable;
using EdgeLens.Assessment.Policies;
using EdgeLens.Assessment.Trend;
using EdgeLens.Geometry.Figures;
using EdgeLens.Records.Inspections;

namespace EdgeLens.Records.Review;

/// <summary>One measure of wear of one working end over the years, with its trend. Points of different program versions are never joined.</summary>
/// <param name="Measure">Name and unit.</param>
/// <param name="Title">For people.</param>
/// <param name="WatchLimit">The policy's; null where it is not judged.</param>
/// <param name="RetireLimit">The policy's; null where it is not judged.</param>
/// <param name="Points">Every inspection of the series' own source that measured it, as-new left out, in order of time.</param>
/// <param name="LeftOut">Inspections that other program versions measured, or that are of another origin: shown, and no part of the trend.</param>
/// <param name="Source">What measured the points, in words.</param>
/// <param name="Trend">Or why there is none.</param>
/// <param name="Forecast">Against the limit for retiring; null without a trend or a limit.</param>
public sealed record WearSeries(
    WearMeasure Measure, string Title, double? WatchLimit, double? RetireLimit, ImmutableArray<WearPoint> Points, ImmutableArray<WearPoint> LeftOut, string Source, Outcome<WearTrend> Trend, WearForecast? Forecast)
{
    /// <summary>Figure rows that a review needs.</summary>
    public static ImmutableArray<string> FigureNames { get; } = [InspectionFigures.JudgedWidthLossPercent, InspectionFigures.LengthLossMm];

    /// <summary>The series with limits: width at its worst judged station, and length.</summary>
    /// <param name="file">Of the working end.</param>
    /// <param name="limits">Of its family.</param>
    public static ImmutableArray<WearSeries> Of(WorkingEndFile file, PolicyLimits limits)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(limits);
        return
        [
            .. limits.WidthLossRetirePercent is null && limits.WidthLossWatchPercent is null
                ? [] : (WearSeries[])[Of(file, InspectionFigures.JudgedWidthLossPercent, "Width lost at the worst judged station", "%", limits.WidthLossWatchPercent, limits.WidthLossRetirePercent)],
            Of(file, InspectionFigures.LengthLossMm, "Length lost", "mm", limits.LengthLossWatchMm, limits.LengthLossRetireMm),
        ];
    }

    private static WearSeries Of(WorkingEndFile file, string name, string title, string unit, double? watch, double? retire)
    {
        WearMeasure measure = new(name, unit);
        WearPoint[] all =
        [
            .. from figure in file.Figures
               where figure.Figure.Name == name && !figure.Inspection.IsAsNew && figure.Figure.Figure.Measured is { StandardUncertainty: > 0 }
               where file.AsNew is null || figure.Inspection.When >= file.AsNew.When
               orderby figure.Inspection.When, figure.Inspection.Id
               select new WearPoint(figure.Inspection, figure.Figure.Figure.Measured!.Value, figure.Figure.SharedStandardUncertainty ?? 0),
        ];
        // The newest row says which version and origin the trend is of: measuring the kept photographs again moves it, entering an old one does not.
        string newest = all.Length == 0 ? "" : WearPoint.SourceOf(all.MaxBy(p => p.Inspection.Id)!.Inspection);
        ImmutableArray<WearPoint> own = [.. all.Where(p => WearPoint.SourceOf(p.Inspection) == newest)];
        // Of an occasion that the newest version measured too, the older figure is history and not left out.
        HashSet<long> measured = [.. own.Select(p => p.Inspection.Occasion)];
        ImmutableArray<WearPoint> others = [.. all.Where(p => WearPoint.SourceOf(p.Inspection) != newest && !measured.Contains(p.Inspection.Occasion))];
        Outcome<WearTrend> trend = file.AsNew is { } asNew
            ? TrendEstimator.Estimate(new(measure, asNew.When, [.. own.Select(p => p.Observation)], file.UsesSince(asNew.When), file.SharpeningsSince(asNew.When)))
            : new Refusal("trend-no-baseline", "There is no as-new inspection to count from.", "Photograph the next instrument when it is new.");
        return new(measure, title, watch, retire, own, others, newest, trend, retire is { } limit && trend.TryGet(out WearTrend? known, out _) ? WearForecast.Of(known, limit) : null);
    }
}

/// <summary>What one inspection says of a measure.</summary>
/// <param name="Inspection">The row.</param>
/// <param name="Loss">With its full standard uncertainty.</param>
/// <param name="Shared">The part that all comparisons with the same as-new photographs share.</param>
public sealed record WearPoint(InspectionEntry Inspection, Measured Loss, double Shared)
{
    internal WearObservation Observation => new(Inspection.When, Loss, Math.Min(Shared, Loss.StandardUncertainty * 0.999), Inspection.ProgramVersion);

    /// <summary>What must be alike for figures to be joined: the program's version, and whether they were measured at all.</summary>
    public static string SourceOf(InspectionEntry inspection) => inspection.Origin switch
    {
        FigureOrigin.Invented => "invented for the demonstration",
        FigureOrigin.RenderedPhotographs => $"EdgeLens {inspection.ProgramVersion}, rendered photographs",
        _ => $"EdgeLens {inspection.ProgramVersion}",
    };
}
