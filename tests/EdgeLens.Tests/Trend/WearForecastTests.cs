using EdgeLens.Assessment.Trend;
using Xunit;

namespace EdgeLens.Tests.Trend;

/// <summary>Outside: by hand, and made truth.</summary>
public sealed class WearForecastTests
{
    private static readonly DateTime AsNew = MadeHistory.AsNew;

    [Fact]
    public void Even_steps_meet_the_limit_on_the_day_that_arithmetic_says()
    {
        // 40 µm a sharpening, one every 30 days, 120 µm lost after 90 days: 200 µm are met 60 days later, after two more sharpenings.
        WearForecast forecast = WearForecast.Of(TrendEstimator.Estimate(WearTrendTests.Sharpened((40, 0.001), (80, 0.001), (120, 0.001))).Value, 200.5);
        Assert.False(forecast.IsMet);
        Assert.Equal(new SharpeningsLeft(2, 2, 2), forecast.SharpeningsLeft);
        DateOnly expected = DateOnly.FromDateTime(AsNew.AddDays(90 + 60));
        Assert.InRange(forecast.MeetsLimit!.Likely!.Value.DayNumber - expected.DayNumber, 0, 2);
        Assert.True(forecast.MeetsLimit.Earliest <= forecast.MeetsLimit.Likely && forecast.MeetsLimit.Likely <= forecast.MeetsLimit.Latest);
    }

    [Fact]
    public void Scatter_widens_the_answer_on_both_sides()
    {
        WearForecast forecast = WearForecast.Of(TrendEstimator.Estimate(WearTrendTests.Sharpened((30, 3), (75, 3), (118, 3), (165, 3), (205, 3))).Value, 400);
        Assert.True(forecast.SharpeningsLeft!.AtLeast < forecast.SharpeningsLeft.Likely);
        Assert.True(forecast.SharpeningsLeft.Likely < forecast.SharpeningsLeft.AtMost);
        Assert.True(forecast.MeetsLimit!.Earliest < forecast.MeetsLimit.Likely);
    }

    [Fact]
    public void The_number_of_sharpenings_promised_is_kept_in_ninety_five_of_a_hundred_made_histories()
    {
        // "At least": the loss after that many is within the limit. One-sided, so 97.5 % and more; of 500 runs at 97.5 % at most 12.5 ± 3.3 · 3.5 = 24 fail.
        MadeHistory made = new() { CaseUm = 0, Cases = [(0, 0)], Inspections = 7 };
        Random random = new(11);
        int broken = 0;
        for (int run = 0; run < 500; run++)
        {
            (WearHistory history, double last, _) = made.Make(random);
            int sure = WearForecast.Of(TrendEstimator.Estimate(history).Value, 500).SharpeningsLeft!.AtLeast;
            double loss = last;
            for (int k = 0; k < sure; k++) loss += made.StepUm + made.StepScatterUm * Fitting.Noise.Normal(random);
            if (loss > 500) broken++;
        }
        Assert.InRange(broken, 0, 24);
    }

    [Fact]
    public void A_limit_already_exceeded_leaves_no_sharpening()
    {
        WearForecast forecast = WearForecast.Of(TrendEstimator.Estimate(WearTrendTests.Sharpened((40, 1), (80, 1), (120, 1))).Value, 100);
        Assert.True(forecast.IsMet);
        Assert.Equal(0, forecast.SharpeningsLeft!.Likely);
        Assert.Equal(DateOnly.FromDateTime(AsNew.AddDays(90)), forecast.MeetsLimit!.Likely);
    }

    [Fact]
    public void Wear_that_is_not_shown_has_no_latest_day()
    {
        // 1 ± 5 µm per step: the lower end of the interval falls, so the limit may never be met.
        WearForecast forecast = WearForecast.Of(TrendEstimator.Estimate(WearTrendTests.Sharpened((3, 5), (0, 5), (4, 5), (2, 5))).Value, 200);
        Assert.Null(forecast.MeetsLimit!.Latest);
        Assert.Null(forecast.SharpeningsLeft!.AtMost);
    }

    [Fact]
    public void A_history_of_a_few_days_gives_no_day()
    {
        WearHistory history = WearTrendTests.Sharpened((40, 1), (80, 1), (120, 1));
        WearTrend trend = TrendEstimator.Estimate(history with
        {
            Inspections = [.. history.Inspections.Select((o, i) => o with { When = AsNew.AddDays(2 * i + 2) })],
            Sharpenings = [.. history.Sharpenings.Select((s, i) => s with { When = AsNew.AddDays(2 * i + 1) })],
        }).Value;
        WearForecast forecast = WearForecast.Of(trend, 200);
        Assert.Null(forecast.MeetsLimit);
        Assert.Contains("30 days", forecast.WhyNoDay, StringComparison.Ordinal);
        // Told the rate of use, it can say: 80 µm are two sharpenings, at 12 a year two months.
        Assert.Equal(60, WearForecast.Of(trend, 200, new(12, 0, 1)).MeetsLimit!.Likely!.Value.DayNumber - DateOnly.FromDateTime(AsNew.AddDays(6)).DayNumber, 3.0);
    }
}
