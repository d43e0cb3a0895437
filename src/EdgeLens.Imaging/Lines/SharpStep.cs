using EdgeLens.Imaging.Edges;

namespace EdgeLens.Imaging.Lines;

/// <summary>
/// Answers "how high is the sharp step here?" along a row of tones: the least-squares height of a blurred step beside a free level and a free
/// trend. Slow changes, such as the card's print far out of focus, are trend and give little.
/// </summary>
public sealed class SharpStep
{
    private readonly double[] _weights;

    /// <param name="blurSigmaPx">Of the step sought.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <param name="halfWidth">Samples to either side that take part; about 4 blurs.</param>
    public SharpStep(double blurSigmaPx, Sharpening sharpening, int halfWidth)
    {
        HalfWidth = halfWidth;
        int n = 2 * halfWidth + 1;
        double[] step = new double[n];
        // A Gaussian-smoothed copy of a blurred step is a step of blur sqrt(σ² + r²).
        double wide = Math.Sqrt(blurSigmaPx * blurSigmaPx + Sharpening.RadiusPx * Sharpening.RadiusPx);
        for (int i = 0; i < n; i++)
        {
            double x = i - halfWidth, s = GaussianStep.At(x / blurSigmaPx);
            step[i] = s + sharpening.Amount * (s - GaussianStep.At(x / wide));
        }
        double mean = step.Average(), squares = 0, moment = 0;
        for (int i = 0; i < n; i++) (squares, moment) = (squares + (i - halfWidth) * (i - halfWidth), moment + (i - halfWidth) * step[i]);
        double norm = 0;
        for (int i = 0; i < n; i++)
        {
            step[i] -= mean + moment / squares * (i - halfWidth);
            norm += step[i] * step[i];
        }
        _weights = [.. step.Select(s => s / norm)];
        Gain = norm;
    }

    /// <summary>Samples to either side.</summary>
    public int HalfWidth { get; }

    /// <summary>Reciprocal variance of the height for samples of unit variance.</summary>
    public double Gain { get; }

    /// <summary>Height of a step that rises with the index, centred on sample <paramref name="at"/>.</summary>
    /// <param name="tones">Samples a stride apart.</param>
    /// <param name="at">Index of the centre, at least HalfWidth strides from either end.</param>
    /// <param name="stride">Distance of neighbours.</param>
    public double Height(ReadOnlySpan<double> tones, int at, int stride = 1)
    {
        double sum = 0;
        for (int i = -HalfWidth; i <= HalfWidth; i++) sum += _weights[i + HalfWidth] * tones[at + i * stride];
        return sum;
    }
}
