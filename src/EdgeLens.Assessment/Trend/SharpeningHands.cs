using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using MathNet.Numerics.Distributions;

namespace EdgeLens.Assessment.Trend;

/// <summary>What one person's sharpening takes off, compared with everybody else's in the set.</summary>
/// <param name="By">Initials or staff code; null for sharpenings without one.</param>
/// <param name="Sharpenings">How many of theirs lie between inspections.</param>
/// <param name="LossPerSharpening">Mean, in the measure's unit.</param>
/// <param name="MoreThanOthers">Their mean less the mean of all other sharpenings of the set; missing when nobody else sharpened.</param>
/// <param name="Low">Lower end of the interval of that difference, or null.</param>
/// <param name="High">Upper end, or null.</param>
public sealed record SharpeningHand(string? By, int Sharpenings, Measured LossPerSharpening, Figure MoreThanOthers, double? Low, double? High)
{
    /// <summary>True when the interval shows more (true) or less (false) than the others; null when it holds 0 or is missing.</summary>
    public bool? TakesMore => Low > 0 ? true : High < 0 ? false : null;
}

/// <summary>Compares the people who sharpen a set of working ends.</summary>
/// <param name="Hands">In order of their codes.</param>
/// <param name="LossPerProcedure">Common to the set; missing where it cannot be told apart.</param>
/// <param name="StepScatter">Standard deviation of single sharpenings about their person's mean.</param>
/// <param name="DegreesOfFreedom">Of the intervals.</param>
public sealed record SharpeningHands(ImmutableArray<SharpeningHand> Hands, Figure LossPerProcedure, double StepScatter, int DegreesOfFreedom)
{
    /// <summary>Fits all histories together.</summary>
    /// <param name="histories">Working ends of one set, one measure and unit. Best in µm of edge loss: the same stroke takes a larger share of a narrow blade.</param>
    /// <param name="options">Assumptions; null for the documented ones. The probability holds for all people together (Bonferroni), since one of many always looks worst.</param>
    /// <returns>The comparison, or a refusal: <c>trend-mixed-versions</c>, <c>trend-mixed-measures</c>, <c>trend-too-few-points</c>, <c>trend-hands-alike</c>.</returns>
    /// <remarks>
    /// The model of a single trend (<see cref="WearTrend"/>) with one rate for each person and one for use; working ends are independent of each other. Steps
    /// of unlike people on one working end between two inspections are told apart only if they do not always come together.
    /// </remarks>
    public static Outcome<SharpeningHands> Compare(ImmutableArray<WearHistory> histories, TrendOptions? options = null)
    {
        options ??= TrendOptions.Default;
        (WearHistory History, WearObservation Seen)[] all = [.. histories.SelectMany(h => h.Inspections.OrderBy(o => o.When).Select(o => (h, o)))];
        if (histories.Select(h => h.Measure).Distinct().Count() > 1) return new Refusal("trend-mixed-measures", "The histories hold different measures of wear.", "Compare like with like.");
        string[] versions = [.. all.Select(o => o.Seen.ProgramVersion).Distinct(StringComparer.Ordinal)];
        if (versions.Length > 1 && versions.Except(options.VersionsThatAgree, StringComparer.Ordinal).Any())
            return new Refusal("trend-mixed-versions", $"The inspections were measured by different versions of the program ({string.Join(", ", versions.Order(StringComparer.Ordinal))}).", "Measure the kept photographs again with one version.");

        string?[] people = [.. all.SelectMany(o => o.History.Sharpenings.Where(s => Counts(s, o)).Select(s => s.By)).Distinct().Order(StringComparer.Ordinal)];
        if (people.Length == 0 || all.Length < people.Length + 2)
            return new Refusal("trend-too-few-points", "There are too few inspections to compare the people who sharpen.", "Inspect before and after sharpenings.", all.Length, people.Length + 2, "inspections");
        bool isUsed = all.Any(o => Exposure.At(o.History, o.Seen.When, options).Procedures > 0) && all.Length >= people.Length + 3;
        if (isUsed && Fit(all, people, true, options).TryGet(out SharpeningHands? hands, out _)) return hands;
        return Fit(all, people, false, options);
    }

    private static bool Counts(SharpeningEntry s, (WearHistory History, WearObservation Seen) o) => s.When >= o.History.AsNew && s.When < o.Seen.When;

    private static Outcome<SharpeningHands> Fit((WearHistory History, WearObservation Seen)[] all, string?[] people, bool withUse, TrendOptions options)
    {
        int n = all.Length, p = people.Length + (withUse ? 1 : 0);
        double[,] design = new double[n, p];
        double[] losses = [.. all.Select(o => o.Seen.Loss.Value)], sharpenings = new double[n];
        for (int i = 0; i < n; i++)
        {
            SharpeningEntry[] before = [.. all[i].History.Sharpenings.Where(s => Counts(s, all[i]))];
            sharpenings[i] = before.Length;
            for (int k = 0; k < people.Length; k++) design[i, k] = before.Count(s => s.By == people[k]);
            if (withUse) design[i, p - 1] = Exposure.At(all[i].History, all[i].Seen.When, options).Procedures;
        }
        if (!At(0).TryGet(out GeneralLeastSquares? none, out Refusal? refusal))
            return new Refusal("trend-hands-alike", "The people always sharpened together, so that their work cannot be told apart.", $"Inspect between sharpenings. ({refusal.Reason})");
        double variance = MandelPaule.Variance(v => At(v).Value.ChiSquare, none.DegreesOfFreedom, losses.Max(y => y * y));
        GeneralLeastSquares fit = At(variance).Value;

        int[] counts = [.. people.Select(by => all.Select(o => o.History).Distinct().Sum(h => h.Inspections.IsEmpty ? 0 : h.Sharpenings.Count(s => s.By == by && Counts(s, (h, h.Inspections.MaxBy(o => o.When)!)))))];
        double factor = StudentT.InvCDF(0, 1, fit.DegreesOfFreedom, 1 - (1 - options.Probability) / (2 * people.Length));
        return new SharpeningHands(
            [.. people.Select((by, k) => HandOf(by, k, fit, counts, p, factor))],
            withUse ? fit.Coefficient(p - 1) : Figure.Missing("Wear by use is not told apart from wear by sharpening."), Math.Sqrt(variance), fit.DegreesOfFreedom);

        Outcome<GeneralLeastSquares> At(double stepVariance)
        {
            double[,] v = new double[n, n];
            for (int i = 0; i < n; i++)
                for (int k = 0; k < n; k++)
                {
                    if (!ReferenceEquals(all[i].History, all[k].History)) continue;
                    double measuring = i == k ? Math.Pow(all[i].Seen.Loss.StandardUncertainty, 2) : all[i].Seen.SharedStandardUncertainty * all[k].Seen.SharedStandardUncertainty;
                    v[i, k] = measuring + stepVariance * Math.Min(sharpenings[i], sharpenings[k]);
                }
            return GeneralLeastSquares.Fit(design, losses, v);
        }
    }

    private static SharpeningHand HandOf(string? by, int k, GeneralLeastSquares fit, int[] counts, int columns, double factor)
    {
        int others = counts.Sum() - counts[k];
        if (others == 0) return new(by, counts[k], fit.Coefficient(k), Figure.Missing("Nobody else sharpened this set."), null, null);
        double[] weights = new double[columns];
        for (int j = 0; j < counts.Length; j++) weights[j] = j == k ? 1 : -(double)counts[j] / others;
        Measured more = fit.Combination(weights);
        double half = factor * more.StandardUncertainty;
        return new(by, counts[k], fit.Coefficient(k), more, more.Value - half, more.Value + half);
    }
}
