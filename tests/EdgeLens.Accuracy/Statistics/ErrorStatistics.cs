using EdgeLens.Accuracy.Comparing;

namespace EdgeLens.Accuracy.Statistics;

/// <summary>Errors of one measurand, summed up. A figure is null when there is nothing to compute it from.</summary>
/// <param name="Count">Figures that were compared.</param>
/// <param name="Missing">Figures that should have been measured and were not.</param>
/// <param name="Bias">Mean error.</param>
/// <param name="Sd">Standard deviation of the errors about their mean, n - 1; from 2 errors on.</param>
/// <param name="P95Abs">The smallest absolute error that at least 95 % of the errors do not exceed (nearest rank: no interpolation into a tail that is not there).</param>
/// <param name="CoverageK2">Share of errors within twice the stated standard uncertainty; about 0.95 is right.</param>
/// <param name="MeanSquaredNormalisedError">Mean of (error / stated standard uncertainty)²; 1 is right, above is over-confident. Infinite when an uncertainty of 0 was stated for a wrong figure.</param>
public sealed record ErrorStatistics(int Count, int Missing, double? Bias, double? Sd, double? P95Abs, double? CoverageK2, double? MeanSquaredNormalisedError)
{
    /// <summary>Sums up comparisons.</summary>
    public static ErrorStatistics Of(IEnumerable<Comparison> comparisons)
    {
        Comparison[] all = [.. comparisons];
        ErrorSample[] samples = [.. all.SelectMany(comparison => comparison.Samples)];
        int missing = all.Sum(comparison => comparison.Missing);
        if (samples.Length == 0) return new(0, missing, null, null, null, null, null);
        double bias = samples.Average(sample => sample.Error);
        double? sd = samples.Length < 2 ? null : Math.Sqrt(samples.Sum(sample => (sample.Error - bias) * (sample.Error - bias)) / (samples.Length - 1));
        double[] absolute = [.. samples.Select(sample => Math.Abs(sample.Error)).Order()];
        double p95 = absolute[(int)Math.Ceiling(0.95 * absolute.Length) - 1];
        (double Error, double U)[] stated = [.. samples.Where(sample => sample.StandardUncertainty is not null).Select(sample => (sample.Error, sample.StandardUncertainty!.Value))];
        return stated.Length == 0
            ? new(samples.Length, missing, bias, sd, p95, null, null)
            : new(samples.Length, missing, bias, sd, p95, stated.Count(s => Math.Abs(s.Error) <= 2 * s.U) / (double)stated.Length, stated.Average(s => s.Error == 0 ? 0 : Square(s.Error / s.U)));
    }

    private static double Square(double v) => v * v;
}
