using System.Collections.Immutable;
using EdgeLens.Assessment.Studies;
using EdgeLens.Tests.Fitting;
using Xunit;

namespace EdgeLens.Tests.Studies;

/// <summary>Outside: two published gauge studies, and made truth.</summary>
public sealed class GaugeAnovaTests
{
    // AIAG, Measurement Systems Analysis, 4th edition (2010): ten parts, appraisers A, B, C, three trials; one line for each appraiser and trial.
    private static readonly double[][][] Manual =
    [
        [[0.29, -0.56, 1.34, 0.47, -0.80, 0.02, 0.59, -0.31, 2.26, -1.36], [0.41, -0.68, 1.17, 0.50, -0.92, -0.11, 0.75, -0.20, 1.99, -1.25], [0.64, -0.58, 1.27, 0.64, -0.84, -0.21, 0.66, -0.17, 2.01, -1.31]],
        [[0.08, -0.47, 1.19, 0.01, -0.56, -0.20, 0.47, -0.63, 1.80, -1.68], [0.25, -1.22, 0.94, 1.03, -1.20, 0.22, 0.55, 0.08, 2.12, -1.62], [0.07, -0.68, 1.34, 0.20, -1.28, 0.06, 0.83, -0.34, 2.19, -1.50]],
        [[0.04, -1.38, 0.88, 0.14, -1.46, -0.29, 0.02, -0.46, 1.77, -1.49], [-0.11, -1.13, 1.09, 0.20, -1.07, -0.67, 0.01, -0.56, 1.45, -1.77], [-0.15, -0.96, 0.67, 0.11, -1.45, -0.49, 0.21, -0.49, 1.87, -2.16]],
    ];

    // Houf and Berman, Statistical analysis of power module thermal test equipment performance, IEEE Trans. CHMT 11 (1988) 516-520: ten parts, three operators, three tests each;
    // as printed in Vidakovic, Statistics for Bioengineering Sciences (2011), example 11.14.
    private static readonly double[][] Impedance =
    [
        [37, 38, 37, 41, 41, 40, 41, 42, 41], [42, 41, 43, 42, 42, 42, 43, 42, 43], [30, 31, 31, 31, 31, 31, 29, 30, 28], [42, 43, 42, 43, 43, 43, 42, 42, 42], [28, 30, 29, 29, 30, 29, 31, 29, 29],
        [42, 42, 43, 45, 45, 45, 44, 46, 45], [25, 26, 27, 28, 28, 30, 29, 27, 27], [40, 40, 40, 43, 42, 42, 43, 43, 41], [25, 25, 25, 27, 29, 28, 26, 26, 26], [35, 34, 34, 35, 35, 34, 35, 34, 35],
    ];

    [Fact]
    public void The_manual_s_table_is_met()
    {
        GaugeAnova anova = GaugeAnova.Of(ManualStudy());
        // The manual's printed table (values from memory): sums of squares 3.1673 (2), 88.3619 (9), 0.3590 (18), 2.7589 (60).
        Assert.Equal((3.1673, 2), (Math.Round(anova.People.SumOfSquares, 4), anova.People.DegreesOfFreedom));
        Assert.Equal((88.3619, 9), (Math.Round(anova.Things.SumOfSquares, 4), anova.Things.DegreesOfFreedom));
        Assert.Equal((0.3590, 18), (Math.Round(anova.Interaction.SumOfSquares, 4), anova.Interaction.DegreesOfFreedom));
        Assert.Equal((2.7589, 60), (Math.Round(anova.Repeats.SumOfSquares, 4), anova.Repeats.DegreesOfFreedom));
        Assert.Equal(0.434, anova.Interaction.MeanSquare / anova.Repeats.MeanSquare, 3);
    }

    [Fact]
    public void The_manual_s_result_is_met_with_the_interaction_pooled()
    {
        GaugeAnova anova = GaugeAnova.Of(ManualStudy());
        Assert.True(anova.IsPooled);
        GaugeVariances v = anova.Variances;
        // Printed: EV 0.199933, AV 0.226838, GRR 0.302373, PV 1.042327; 18.4 %, 20.9 %, 27.9 %, 96.0 % of the total; 4 distinct categories (values from memory).
        Assert.Equal(0.199933, v.RepeatabilitySd, 5);
        Assert.Equal(0.226838, v.ReproducibilitySd, 5);
        Assert.Equal(0.302373, v.GaugeSd, 5);
        Assert.Equal(1.042327, v.ThingSd, 5);
        Assert.Equal(27.9, v.GaugePercent, 1);
        Assert.Equal(4, v.DistinctCategories);
    }

    [Fact]
    public void The_thermal_impedance_study_is_met_with_its_interaction()
    {
        GaugeAnova anova = GaugeAnova.Of(ImpedanceStudy());
        Assert.False(anova.IsPooled);
        // Printed mean squares: parts 437.33, operators 19.63, interaction 2.70, repeatability 0.51; variances 48.29, 0.56, 0.73, 0.51
        // (Burdick, Borror, Montgomery, J. Qual. Technol. 35 (2003) 342-354; values from memory).
        Assert.Equal(437.33, anova.Things.MeanSquare, 2);
        Assert.Equal(19.63, anova.People.MeanSquare, 2);
        Assert.Equal(2.70, anova.Interaction.MeanSquare, 2);
        Assert.Equal(0.51, anova.Repeats.MeanSquare, 2);
        Assert.Equal(48.29, anova.Variances.ThingVariance, 2);
        Assert.Equal(0.56, anova.Variances.PersonVariance, 2);
        Assert.Equal(0.73, anova.Variances.InteractionVariance, 2);
    }

    [Fact]
    public void Made_variances_are_found_on_average()
    {
        // Gauge variance 9 + 4 = 13 made; 300 studies of 6 x 3 x 3. The person variance rests on 2 degrees of freedom: sd of its estimate about 4 + 9/18 = 4.5;
        // setting negative estimates to 0 adds a little (predicted from the chi-square below 0.5/4.5: 0.01).
        Random random = new(8);
        double repeat = 0, person = 0;
        for (int run = 0; run < 300; run++)
        {
            double[] people = [.. Enumerable.Range(0, 3).Select(_ => 2 * Noise.Normal(random))], things = [.. Enumerable.Range(0, 6).Select(_ => 20 * Noise.Normal(random))];
            GaugeVariances v = GaugeAnova.Of(Study(6, 3, 3, (i, j, _) => things[i] + people[j] + 3 * Noise.Normal(random))).WithInteraction;
            repeat += v.RepeatLine.MeanSquare / 300;
            person += v.PersonVariance / 300;
        }
        Assert.InRange(repeat, 9 - 3 * 9 * Math.Sqrt(2 / 36.0 / 300), 9 + 3 * 9 * Math.Sqrt(2 / 36.0 / 300));
        Assert.InRange(person, 4 - 3 * 4.6 / Math.Sqrt(300), 4.1 + 3 * 4.6 / Math.Sqrt(300));
    }

    [Fact]
    public void Limits_of_repeatability_hold_in_ninety_five_of_a_hundred_made_studies()
    {
        Random random = new(9);
        int held = 0;
        for (int run = 0; run < 400; run++)
        {
            (double low, double high) = GaugeAnova.Of(Study(2, 2, 3, (_, _, _) => 3 * Noise.Normal(random))).WithInteraction.RepeatabilityLimits;
            if (low <= 3 && 3 <= high) held++;
        }
        Assert.InRange(held, 366, 393); // binomial, 95 % of 400, ± 3 σ
    }

    [Fact]
    public void Readings_beyond_the_balanced_number_are_left_out_and_a_small_study_is_refused()
    {
        ImmutableArray<(string, string, double)> readings = [("a", "X", 1), ("a", "X", 2), ("a", "X", 99), ("a", "Y", 3), ("a", "Y", 4), ("b", "X", 5), ("b", "X", 6), ("b", "Y", 7), ("b", "Y", 8)];
        CrossedReadings study = CrossedReadings.Of(readings).Value;
        Assert.Equal(2, study.Trials);
        Assert.Equal([1, 2, 3, 4, 5, 6, 7, 8], study.Values);
        Assert.Equal("study-too-small", CrossedReadings.Of([.. readings.Where(r => r.Item1 == "a")]).Refusal!.Code);
        Assert.Equal("study-too-small", CrossedReadings.Of([.. readings.Where(r => r.Item2 == "X")]).Refusal!.Code);
        Assert.Equal("study-too-small", CrossedReadings.Of(readings.RemoveAt(8)).Refusal!.Code);
    }

    [Theory]
    // Smallest change seen: 2 √2 · 0.302373 = 0.8552 (by hand).
    [InlineData(2.6, GaugeGrade.Good)]
    [InlineData(2.5, GaugeGrade.Fair)]
    [InlineData(0.86, GaugeGrade.Fair)]
    [InlineData(0.85, GaugeGrade.Poor)]
    public void A_verdict_holds_the_smallest_change_seen_against_the_limit(double limit, GaugeGrade grade)
    {
        GaugeVerdict verdict = new("widthLossPercent", "%", GaugeAnova.Of(ManualStudy()), limit, 0.3);
        Assert.Equal(0.8552, verdict.SmallestChangeSeen, 3);
        Assert.Equal(grade, verdict.Grade);
        Assert.Contains("0.9 %", verdict.Words, StringComparison.Ordinal);
        Assert.Contains("People differ more", verdict.Words, StringComparison.Ordinal);
        Assert.Equal(1.008, verdict.ObservedOverStated!.Value, 3);
    }

    [Fact]
    public void Without_a_limit_the_manual_s_bands_decide() => Assert.Equal(GaugeGrade.Fair, new GaugeVerdict("x", "µm", GaugeAnova.Of(ManualStudy()), null, 0).Grade);

    private static CrossedReadings ManualStudy() => Study(10, 3, 3, (part, person, trial) => Manual[person][trial][part]);

    private static CrossedReadings ImpedanceStudy() => Study(10, 3, 3, (part, person, trial) => Impedance[part][3 * person + trial]);

    private static CrossedReadings Study(int things, int people, int trials, Func<int, int, int, double> value) => new(
        [.. Enumerable.Range(1, things).Select(i => $"end {i}")], [.. Enumerable.Range(0, people).Select(j => ((char)('A' + j)).ToString())], trials,
        [.. from i in Enumerable.Range(0, things) from j in Enumerable.Range(0, people) from k in Enumerable.Range(0, trials) select value(i, j, k)]);
}
