namespace EdgeLens.Tests.Fitting;

/// <summary>Seeded random numbers of known distribution.</summary>
internal static class Noise
{
    /// <summary>Standard normal (Box, Muller 1958).</summary>
    public static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    /// <summary>Gaussian process on an even grid with the autocorrelation exp(-½ (d / length)²): white noise smoothed by a Gaussian of sigma length/√2.</summary>
    public static double[] Correlated(int count, double spacing, double length, double sd, Random random)
    {
        double b = length / Math.Sqrt(2) / spacing;
        int reach = (int)Math.Ceiling(4 * b);
        double[] white = new double[count + 2 * reach], kernel = new double[2 * reach + 1], smooth = new double[count];
        for (int i = 0; i < white.Length; i++) white[i] = Normal(random);
        for (int j = 0; j < kernel.Length; j++) kernel[j] = Math.Exp(-0.5 * Math.Pow((j - reach) / b, 2));
        double scale = sd / Math.Sqrt(kernel.Sum(k => k * k));
        for (int i = 0; i < count; i++)
            for (int j = 0; j < kernel.Length; j++) smooth[i] += scale * kernel[j] * white[i + j];
        return smooth;
    }
}
