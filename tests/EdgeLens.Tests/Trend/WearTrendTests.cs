using EdgeLens.Assessment.Trend;
using EdgeLens.Geometry.Figures;
using Xunit;

namespace EdgeLens.Tests.Trend;

/// <summary>Outside: made truth with predicted coverage; Student's t from any handbook table; the textbook regression in a case that can be done by hand.</summary>
public sealed class WearTrendTests
{
    private static readonly DateTime AsNew = MadeHistory.AsNew;

    [Fact]
    public void Exact_losses_give_the_made_rates()
    {
        (WearHistory history, double last, _) = (new MadeHistory { StepScatterUm = 0, OwnUm = 1e-6, SharedUm = 0, Inspections = 8 }).Make(new Random(1));
        WearTrend trend = TrendEstimator.Estimate(history).Value;
        Assert.Equal(40, trend.LossPerSharpening.Measured!.Value.Value, 4);
        Assert.Equal(0.5, trend.LossPerProcedure.Measured!.Value.Value, 4);
        Assert.Equal(last, trend.Predict(trend.Exposures[^1]).Loss.Value, 4);
        Assert.Equal(6, trend.DegreesOfFreedom);
        Assert.Empty(trend.Remarks);
    }

    [Fact]
    public void A_line_through_as_new_is_the_weighted_mean_of_its_slopes()
    {
        // By hand: independent errors u_i, exposures s_i: slope = Σ(s y / u²) / Σ(s² / u²), variance 1 / Σ(s² / u²). s = 1, 2, 3; y = 41, 79, 120; u = 2, 2, 4.
        WearHistory history = Sharpened((41, 2), (79, 2), (120, 4));
        double top = 41 / 4.0 + 2 * 79 / 4.0 + 3 * 120 / 16.0, bottom = 1 / 4.0 + 4 / 4.0 + 9 / 16.0;
        WearTrend trend = TrendEstimator.Estimate(history).Value;
        Assert.Equal(top / bottom, trend.LossPerSharpening.Measured!.Value.Value, 9);
        Assert.Equal(Math.Sqrt(1 / bottom), trend.LossPerSharpening.Measured!.Value.StandardUncertainty, 9);
        Assert.Equal(0, trend.StepScatter);
        PredictedLoss next = trend.Predict(new(5, 0, 1));
        Assert.Equal(5 * top / bottom, next.Loss.Value, 9);
        Assert.Equal(5 / Math.Sqrt(bottom), next.Loss.StandardUncertainty, 9);
    }

    [Fact]
    public void A_forecast_starts_from_where_the_working_end_stands()
    {
        // Steps of 20, 60 and 40 µm, measured to 0.1 µm: the mean line is at 40 a step, the last loss at 120 is known; one step later it is 160, uncertain by about one step's scatter.
        WearTrend trend = TrendEstimator.Estimate(Sharpened((20, 0.1), (80, 0.1), (120, 0.1))).Value;
        Assert.Equal(20, trend.StepScatter, 1);
        Assert.Equal(160, trend.Predict(new(4, 0, 1)).Loss.Value, 1);
        // A new step's scatter and that of the mean of three: 20 · √(1 + 1/3).
        PredictedLoss next = trend.Predict(new(4, 0, 1));
        Assert.Equal(20 * Math.Sqrt(4 / 3.0), next.Loss.StandardUncertainty, 1);
        // All of it is known from three steps about their mean: two degrees of freedom, Student's 97.5 % point 4.303 (any handbook table).
        Assert.Equal(2, next.DegreesOfFreedom, 2);
        Assert.Equal(4.303, (next.High - next.Loss.Value) / next.Loss.StandardUncertainty, 2);
    }

    [Theory]
    // Where the steps' scatter dominates, Student's t with n - p degrees of freedom is exact: 95 %, ± 3.3 σ of 1000 binomial trials = 2.3 %.
    [InlineData(12, 0.5, 0.2, 927, 973)]
    // As a practice has it; and both alike: an excess variance that is found as 0 half of the time is too hopeful then, Student's factor too careful the other half.
    [InlineData(12, 4, 3, 927, 990)]
    [InlineData(5, 5, 5, 927, 995)]
    // Steps more even than any hand grinds: the excess variance can only be found too large, so the interval is on the safe side.
    [InlineData(0.5, 6, 6, 950, 1000)]
    public void Ninety_five_of_a_hundred_intervals_hold_the_loss_after_one_sharpening_more(double scatter, double own, double shared, int least, int most)
    {
        MadeHistory made = new() { StepScatterUm = scatter, OwnUm = own, SharedUm = shared, Inspections = 6 };
        Random random = new(5);
        int held = 0, runs = 1000;
        for (int run = 0; run < runs; run++)
        {
            (WearHistory history, _, double next) = made.Make(random);
            WearTrend trend = TrendEstimator.Estimate(history).Value;
            Exposure now = trend.Exposures[^1];
            PredictedLoss p = trend.Predict(now with { Sharpenings = now.Sharpenings + 1 });
            if (p.Low <= next && next <= p.High) held++;
        }
        TestContext.Current.TestOutputHelper!.WriteLine($"{held} of {runs}");
        Assert.InRange(held, least, most);
    }

    [Fact]
    public void A_shared_error_is_not_averaged_away()
    {
        // Ten inspections without a sharpening or use in between, after one sharpening: all share the as-new error of 3 µm; the own 4 µm average to 4/√10.
        WearHistory history = new(new("meanEdgeLossUm", "µm"), AsNew, [.. Enumerable.Range(1, 10).Select(i => new WearObservation(AsNew.AddDays(10 + i), new(40, 5), 3, "1.0"))], [], [new(AsNew.AddDays(5), "AB")]);
        Measured step = TrendEstimator.Estimate(history).Value.LossPerSharpening.Measured!.Value;
        Assert.Equal(Math.Sqrt(9 + 16 / 10.0), step.StandardUncertainty, 6);
    }

    [Fact]
    public void A_heavy_case_counts_as_two_and_a_half_light_ones()
    {
        // Common practice: two or three.
        WearHistory history = new(new("w", "µm"), AsNew, [], [new(AsNew.AddDays(1), 4, 2), new(AsNew.AddDays(9), 1, 0)], []);
        Assert.Equal(9, Exposure.At(history, AsNew.AddDays(5), TrendOptions.Default).Procedures);
        Assert.Equal(11, Exposure.At(history, AsNew.AddDays(10), TrendOptions.Default with { HeavyCaseWeight = 3 }).Procedures);
    }

    [Fact]
    public void An_inspection_comes_before_a_sharpening_of_the_same_moment()
    {
        DateTime day = AsNew.AddDays(3);
        WearHistory history = new(new("w", "µm"), AsNew, [], [], [new(day, "AB")]);
        Assert.Equal(0, Exposure.At(history, day, TrendOptions.Default).Sharpenings);
        Assert.Equal(1, Exposure.At(history, day.AddHours(1), TrendOptions.Default).Sharpenings);
    }

    [Fact]
    public void Two_inspections_are_no_trend()
    {
        Refusal refusal = TrendEstimator.Estimate(Sharpened((40, 4), (80, 4))).Refusal!;
        Assert.Equal("trend-too-few-points", refusal.Code);
        Assert.Equal((2, 3), (refusal.Figure, refusal.Limit));
    }

    [Fact]
    public void Three_inspections_are_called_weak()
    {
        WearTrend trend = TrendEstimator.Estimate(Sharpened((40, 4), (80, 4), (120, 4))).Value;
        Assert.True(trend.IsWeak);
        Assert.Contains(trend.Remarks, r => r.Contains("weak", StringComparison.Ordinal) && r.Contains("3 inspections", StringComparison.Ordinal));
    }

    [Fact]
    public void Program_versions_are_never_mixed_in_silence()
    {
        WearHistory history = Sharpened((40, 4), (80, 4), (120, 4));
        WearHistory mixed = history with { Inspections = history.Inspections.SetItem(2, history.Inspections[2] with { ProgramVersion = "1.1" }) };
        Refusal refusal = TrendEstimator.Estimate(mixed).Refusal!;
        Assert.Equal("trend-mixed-versions", refusal.Code);
        Assert.Contains("1.0, 1.1", refusal.Reason, StringComparison.Ordinal);
        Assert.Contains(TrendEstimator.Estimate(mixed, TrendOptions.Default with { VersionsThatAgree = ["1.0", "1.1"] }).Value.Remarks, r => r.Contains("declared to agree", StringComparison.Ordinal));
    }

    [Fact]
    public void Uses_that_always_go_with_a_sharpening_are_not_told_apart_and_the_trend_says_so()
    {
        (WearHistory history, _, _) = (new MadeHistory { Cases = [(10, 0)], Inspections = 8 }).Make(new Random(3));
        WearTrend trend = TrendEstimator.Estimate(history).Value;
        Assert.Null(trend.LossPerProcedure.Measured);
        Assert.Contains(trend.Remarks, r => r.Contains("includes", StringComparison.Ordinal));
        // 40 by the sharpening and 10 · 0.5 by the cases; eight steps' scatter of 12 and their shared error leave an uncertainty of about 4.3.
        Assert.InRange(trend.LossPerSharpening.Measured!.Value.Value, 45 - 13, 45 + 13);
    }

    [Fact]
    public void Without_logs_the_trend_runs_over_time()
    {
        WearHistory history = Sharpened((10, 2), (20, 2), (30, 2)) with { Sharpenings = [] };
        WearTrend trend = TrendEstimator.Estimate(history).Value;
        // 10 µm in 30 days.
        Assert.Equal(10 * 365.2425 / 30, trend.LossPerYear.Measured!.Value.Value, 6);
        Assert.Contains(trend.Remarks, r => r.Contains("over time", StringComparison.Ordinal));
    }

    /// <summary>Inspections every 30 days, one sharpening half way before each.</summary>
    internal static WearHistory Sharpened(params (double LossUm, double SdUm)[] losses) => new(
        new("meanEdgeLossUm", "µm"), AsNew,
        [.. losses.Select((l, i) => new WearObservation(AsNew.AddDays(30 * (i + 1)), new(l.LossUm, l.SdUm), 0, "1.0"))], [],
        [.. losses.Select((_, i) => new SharpeningEntry(AsNew.AddDays(30 * i + 15), "AB"))]);
}
