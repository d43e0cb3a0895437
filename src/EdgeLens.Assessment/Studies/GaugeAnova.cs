using EdgeLens.Geometry.Figures;
using MathNet.Numerics.Distributions;

namespace EdgeLens.Assessment.Studies;

/// <summary>One line of an analysis of variance.</summary>
/// <param name="SumOfSquares">About the mean.</param>
/// <param name="DegreesOfFreedom">At least 1.</param>
public readonly record struct AnovaLine(double SumOfSquares, int DegreesOfFreedom)
{
    /// <summary>Mean square.</summary>
    public double MeanSquare => SumOfSquares / DegreesOfFreedom;
}

/// <summary>Two-way crossed analysis of variance of a study, things and people random, and the variances that follow from it.</summary>
/// <param name="Things">Differences between the things.</param>
/// <param name="People">Differences between the people.</param>
/// <param name="Interaction">Things that one person reads otherwise than another.</param>
/// <param name="Repeats">Differences between readings by one person of one thing.</param>
/// <param name="ThingCount">Number of things.</param>
/// <param name="PersonCount">Number of people.</param>
/// <param name="Trials">Readings of each thing by each person.</param>
/// <remarks>
/// AIAG Measurement Systems Analysis, 4th edition (2010), chapter III, section B; NIST/SEMATECH e-Handbook of Statistical Methods, 3.2.3.3. Expected mean squares
/// of the random model, e.g. Montgomery, Design and Analysis of Experiments.
/// </remarks>
public sealed record GaugeAnova(AnovaLine Things, AnovaLine People, AnovaLine Interaction, AnovaLine Repeats, int ThingCount, int PersonCount, int Trials)
{
    /// <summary>
    /// An interaction whose significance level is above this is taken for repeat scatter and pooled with it. The manual's usual 0.25: high, because pooling a real
    /// interaction would make the study look better than it is.
    /// </summary>
    public const double PoolingLevel = 0.25;

    /// <summary>Analyses a study.</summary>
    public static GaugeAnova Of(CrossedReadings r)
    {
        ArgumentNullException.ThrowIfNull(r);
        int a = r.Things.Length, b = r.People.Length, n = r.Trials;
        double grand = r.Values.Average(), things = 0, people = 0, interaction = 0, repeats = 0;
        double[] thing = [.. Enumerable.Range(0, a).Select(i => r.Values.AsSpan(i * b * n, b * n).ToArray().Average())];
        double[] person = new double[b];
        for (int j = 0; j < b; j++)
            for (int i = 0; i < a; i++)
                for (int k = 0; k < n; k++) person[j] += r.At(i, j, k) / (a * n);
        for (int i = 0; i < a; i++)
        {
            things += b * n * Math.Pow(thing[i] - grand, 2);
            for (int j = 0; j < b; j++)
            {
                double cell = 0;
                for (int k = 0; k < n; k++) cell += r.At(i, j, k) / n;
                interaction += n * Math.Pow(cell - thing[i] - person[j] + grand, 2);
                for (int k = 0; k < n; k++) repeats += Math.Pow(r.At(i, j, k) - cell, 2);
            }
        }
        for (int j = 0; j < b; j++) people += a * n * Math.Pow(person[j] - grand, 2);
        return new(new(things, a - 1), new(people, b - 1), new(interaction, (a - 1) * (b - 1)), new(repeats, a * b * (n - 1)), a, b, n);
    }

    /// <summary>Probability of an interaction at least as large by chance.</summary>
    public double InteractionLevel => Repeats.SumOfSquares > 0
        ? 1 - new FisherSnedecor(Interaction.DegreesOfFreedom, Repeats.DegreesOfFreedom).CumulativeDistribution(Interaction.MeanSquare / Repeats.MeanSquare)
        : Interaction.SumOfSquares > 0 ? 0 : 1;

    /// <summary>True when the interaction is pooled with the repeats.</summary>
    public bool IsPooled => InteractionLevel > PoolingLevel;

    /// <summary>Repeats and interaction together.</summary>
    public AnovaLine Pooled => new(Repeats.SumOfSquares + Interaction.SumOfSquares, Repeats.DegreesOfFreedom + Interaction.DegreesOfFreedom);

    /// <summary>The variances with the interaction pooled or not, as <see cref="IsPooled"/> says.</summary>
    public GaugeVariances Variances => IsPooled ? WithoutInteraction : WithInteraction;

    /// <summary>The variances of the model with interaction. A negative estimate is set to 0, as the manual does.</summary>
    public GaugeVariances WithInteraction => new(
        Repeats, Math.Max(0, (People.MeanSquare - Interaction.MeanSquare) / (ThingCount * Trials)), Math.Max(0, (Interaction.MeanSquare - Repeats.MeanSquare) / Trials),
        Math.Max(0, (Things.MeanSquare - Interaction.MeanSquare) / (PersonCount * Trials)));

    /// <summary>The variances of the model without interaction.</summary>
    public GaugeVariances WithoutInteraction => new(
        Pooled, Math.Max(0, (People.MeanSquare - Pooled.MeanSquare) / (ThingCount * Trials)), 0, Math.Max(0, (Things.MeanSquare - Pooled.MeanSquare) / (PersonCount * Trials)));
}

/// <summary>Variances of a study, square of the readings' unit.</summary>
/// <param name="RepeatLine">Whose mean square is the repeatability variance.</param>
/// <param name="PersonVariance">Between people.</param>
/// <param name="InteractionVariance">Between people, differing from thing to thing; 0 when pooled.</param>
/// <param name="ThingVariance">Between things.</param>
public sealed record GaugeVariances(AnovaLine RepeatLine, double PersonVariance, double InteractionVariance, double ThingVariance)
{
    /// <summary>Standard deviation of one person repeating.</summary>
    public double RepeatabilitySd => Math.Sqrt(RepeatLine.MeanSquare);

    /// <summary>Standard deviation between people, interaction included.</summary>
    public double ReproducibilitySd => Quadrature.Sum(Math.Sqrt(PersonVariance), Math.Sqrt(InteractionVariance));

    /// <summary>Standard deviation of a reading by anybody: repeatability and reproducibility together.</summary>
    public double GaugeSd => Quadrature.Sum(RepeatabilitySd, ReproducibilitySd);

    /// <summary>Standard deviation of the things themselves.</summary>
    public double ThingSd => Math.Sqrt(ThingVariance);

    /// <summary>Standard deviation of all readings.</summary>
    public double TotalSd => Quadrature.Sum(GaugeSd, ThingSd);

    /// <summary>Gauge in percent of the total, as standard deviations (the manual's %GRR); 0 when nothing varies.</summary>
    public double GaugePercent => TotalSd > 0 ? 100 * GaugeSd / TotalSd : 0;

    /// <summary>How many classes of things the gauge tells apart: √2 times thing over gauge, truncated (the manual's ndc). Null when the gauge shows no scatter.</summary>
    public int? DistinctCategories => GaugeSd > 0 ? (int)Math.Floor(Math.Min(1e6, Math.Sqrt(2) * ThingSd / GaugeSd)) : null;

    /// <summary>Limits of the true repeatability standard deviation, 95 %: chi-square with the line's degrees of freedom.</summary>
    public (double Low, double High) RepeatabilityLimits => (
        Math.Sqrt(RepeatLine.SumOfSquares / ChiSquared.InvCDF(RepeatLine.DegreesOfFreedom, 0.975)), Math.Sqrt(RepeatLine.SumOfSquares / ChiSquared.InvCDF(RepeatLine.DegreesOfFreedom, 0.025)));
}
