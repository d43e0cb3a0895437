using System.Collections.Immutable;
using EdgeLens.Assessment.Trend;
using EdgeLens.Records.Review;

namespace EdgeLens.PracticeReports.Plotting;

/// <summary>What a trend's plot shows, without a drawing library: points with k = 2, the fitted line with its steps, the prediction interval ahead, limits and sharpenings.</summary>
/// <param name="Title">Of the measure, with unit.</param>
/// <param name="Unit">Of the losses.</param>
/// <param name="Points">Of the trend's own source.</param>
/// <param name="LeftOut">Of other sources: drawn hollow.</param>
/// <param name="Line">The fitted loss; empty without a trend.</param>
/// <param name="Ahead">The prediction with its 95 % interval after the last inspection; empty without one.</param>
/// <param name="Sharpenings">When.</param>
/// <param name="WatchLimit">Null for none.</param>
/// <param name="RetireLimit">Null for none.</param>
public sealed record TrendPlot(
    string Title, string Unit, ImmutableArray<PlotPoint> Points, ImmutableArray<PlotPoint> LeftOut, ImmutableArray<(DateTime When, double Loss)> Line, ImmutableArray<PlotBand> Ahead,
    ImmutableArray<DateTime> Sharpenings, double? WatchLimit, double? RetireLimit)
{
    // Places at which the fitted line is drawn, besides its steps: about a line's width on paper.
    private const int LineParts = 300;

    // How far ahead a plot looks when the forecast has no likely day, and at most: beyond two years the interval fills the plot.
    private const int LeastAheadDays = 182, MostAheadDays = 730;

    /// <summary>The plot of a series.</summary>
    public static TrendPlot Of(WearSeries series, WorkingEndFile file)
    {
        ArgumentNullException.ThrowIfNull(series);
        ArgumentNullException.ThrowIfNull(file);
        DateTime from = file.AsNew?.When ?? DateTime.MinValue;
        ImmutableArray<DateTime> sharpenings = [.. file.Sharpenings.Select(s => s.When).Where(w => w >= from)];
        series.Trend.TryGet(out WearTrend? trend, out _);
        return new(
            $"{series.Title} ({series.Measure.Unit})", series.Measure.Unit, [.. series.Points.Select(PlotPoint.Of)], [.. series.LeftOut.Select(PlotPoint.Of)],
            trend is null ? [] : Fitted(trend, sharpenings), trend is null ? [] : Predicted(trend, series.Forecast), sharpenings, series.WatchLimit, series.RetireLimit);
    }

    private static ImmutableArray<(DateTime, double)> Fitted(WearTrend trend, ImmutableArray<DateTime> sharpenings)
    {
        DateTime from = trend.History.AsNew, to = trend.Observations[^1].When;
        IEnumerable<DateTime> steps = Enumerable.Range(0, LineParts).Select(i => from + (to - from) * i / LineParts);
        // A sharpening counts from just after its moment: two points make its step upright.
        IEnumerable<DateTime> jumps = sharpenings.Where(s => s < to).SelectMany(s => (DateTime[])[s, s.AddMinutes(1)]);
        return [.. steps.Concat(jumps).Append(to).Distinct().Order().Select(when => (when, trend.Predict(Exposure.At(trend.History, when, trend.Options)).Loss.Value))];
    }

    private static ImmutableArray<PlotBand> Predicted(WearTrend trend, WearForecast? forecast)
    {
        if (forecast?.RateOfUse is not { } rate) return [];
        DateTime last = trend.Observations[^1].When;
        double likely = forecast.MeetsLimit?.Likely is { } day ? (day.ToDateTime(TimeOnly.MinValue) - last).TotalDays * 1.1 : 0;
        double days = Math.Clamp(likely, LeastAheadDays, MostAheadDays);
        Exposure now = trend.Exposures[^1];
        const int Parts = 40;
        return
        [
            .. from i in Enumerable.Range(0, Parts + 1)
               let ahead = days * i / Parts
               let years = ahead / Exposure.DaysPerYear
               let predicted = trend.Predict(new(now.Sharpenings + rate.Sharpenings * years, now.Procedures + rate.Procedures * years, now.Years + years))
               select new PlotBand(last.AddDays(ahead), predicted.Low, predicted.Loss.Value, predicted.High),
        ];
    }
}

/// <summary>A measured loss in a plot.</summary>
/// <param name="When">Day.</param>
/// <param name="Loss">Value.</param>
/// <param name="Expanded">Half width for k = 2.</param>
public readonly record struct PlotPoint(DateTime When, double Loss, double Expanded)
{
    internal static PlotPoint Of(WearPoint point) => new(point.Inspection.When, point.Loss.Value, point.Loss.ExpandedUncertainty);
}

/// <summary>A predicted loss with its interval.</summary>
/// <param name="When">Day.</param>
/// <param name="Low">Lower end.</param>
/// <param name="Loss">Prediction.</param>
/// <param name="High">Upper end.</param>
public readonly record struct PlotBand(DateTime When, double Low, double Loss, double High);
