using EdgeLens.Accuracy.Comparing;

namespace EdgeLens.Accuracy.Statistics;

/// <summary>How well the estimated radius orders and measures stretches of edge. A figure is null when there is nothing to compute it from.</summary>
/// <param name="Sharp">Stretches of at most 5 µm that were measured.</param>
/// <param name="Dull">Stretches of at least 15 µm that were measured.</param>
/// <param name="RocArea">Chance that a dull stretch drawn at random is given a greater radius than a sharp one; ties count half (Mann and Whitney, Ann Math Stat 18 (1947) 50).</param>
/// <param name="Spearman">Rank correlation of estimated and true radius, mean ranks for ties.</param>
/// <param name="SpearmanCeiling">What a perfect order would reach: many stretches have the very same true radius, which no estimate has (1 without ties).</param>
/// <param name="WithinQuarter">Share of the stretches of 10 to 60 µm whose estimate is within 25 % of the truth.</param>
/// <param name="Measurable">How many such stretches were measured.</param>
public sealed record DullnessStatistics(int Sharp, int Dull, double? RocArea, double? Spearman, double? SpearmanCeiling, double? WithinQuarter, int Measurable)
{
    private const double SharpUm = 5, DullUm = 15, LeastUm = 10, GreatestUm = 60, Share = 0.25;

    /// <summary>Sums up; stretches without an estimate do not count.</summary>
    public static DullnessStatistics Of(IReadOnlyList<EdgeStretch> stretches)
    {
        (double Truth, double Estimate)[] all = [.. stretches.Where(s => s.RadiusUm is not null).Select(s => (s.TrueRadiusUm, s.RadiusUm!.Value.Value))];
        double[] sharp = [.. all.Where(s => s.Truth <= SharpUm).Select(s => s.Estimate)], dull = [.. all.Where(s => s.Truth >= DullUm).Select(s => s.Estimate)];
        (double Truth, double Estimate)[] between = [.. all.Where(s => s.Truth is >= LeastUm and <= GreatestUm)];
        return new(sharp.Length, dull.Length, RocAreaOf(sharp, dull), all.Length < 3 ? null : Correlation(Ranks([.. all.Select(s => s.Truth)]), Ranks([.. all.Select(s => s.Estimate)])),
            all.Length < 3 ? null : Ceiling([.. all.Select(s => s.Truth)]),
            between.Length == 0 ? null : between.Count(s => Math.Abs(s.Estimate - s.Truth) <= Share * s.Truth) / (double)between.Length, between.Length);
    }

    /// <summary>Area under the ROC curve.</summary>
    public static double? RocAreaOf(IReadOnlyList<double> low, IReadOnlyList<double> high) =>
        low.Count == 0 || high.Count == 0 ? null : high.Sum(h => low.Sum(l => h > l ? 1 : h == l ? 0.5 : 0)) / low.Count / high.Count;

    /// <summary>With an estimate that orders without ties: the root of the share of the ranks' variance that ties leave (the tie correction of any handbook, Σ (t³ - t)).</summary>
    private static double? Ceiling(IReadOnlyList<double> truth)
    {
        double Cubic(double n) => n * n * n - n;
        double tied = truth.GroupBy(t => t).Sum(group => Cubic(group.Count()));
        return Math.Sqrt(1 - tied / Cubic(truth.Count));
    }

    /// <summary>Ranks from 1 on; equal values share their mean rank.</summary>
    public static double[] Ranks(IReadOnlyList<double> values) => [.. values.Select(v => 0.5 + values.Count(w => w < v) + 0.5 * values.Count(w => w == v))];

    /// <summary>Pearson's correlation; null when one of the two does not vary.</summary>
    public static double? Correlation(IReadOnlyList<double> a, IReadOnlyList<double> b)
    {
        double meanA = a.Average(), meanB = b.Average(), ab = 0, aa = 0, bb = 0;
        foreach ((double x, double y) in a.Zip(b)) (ab, aa, bb) = (ab + (x - meanA) * (y - meanB), aa + (x - meanA) * (x - meanA), bb + (y - meanB) * (y - meanB));
        return aa > 0 && bb > 0 ? ab / Math.Sqrt(aa * bb) : null;
    }
}
