namespace EdgeLens.Imaging.Calibration;

/// <summary>Φ and φ of the standard normal distribution by linear interpolation in a table: error below 5e-6, several times faster than a series.</summary>
internal static class NormalTable
{
    private const int PerUnit = 128;
    private const double Limit = 6;
    private static readonly double[] Cumulative = Build();

    /// <summary>Φ(x): how much of a Gaussian edge has been passed at x standard deviations.</summary>
    public static double Phi(double x)
    {
        if (x <= -Limit) return 0;
        if (x >= Limit) return 1;
        double at = (x + Limit) * PerUnit;
        int i = (int)at;
        return Cumulative[i] + (at - i) * (Cumulative[i + 1] - Cumulative[i]);
    }

    /// <summary>φ(x), the derivative of Φ.</summary>
    public static double Density(double x) => x is <= -Limit or >= Limit ? 0 : Math.Exp(-x * x / 2) * 0.3989422804014327;

    private static double[] Build()
    {
        var table = new double[(int)(2 * Limit * PerUnit) + 2];
        for (int i = 0; i < table.Length; i++) table[i] = MathNet.Numerics.Distributions.Normal.CDF(0, 1, (double)i / PerUnit - Limit);
        return table;
    }
}
