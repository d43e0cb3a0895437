using EdgeLens.Geometry.Figures;

namespace EdgeLens.Imaging.Lines;

/// <summary>Mean and standard deviation of a mixture: values that each count by a weight and are themselves uncertain (law of total variance).</summary>
internal sealed class WeighedMoments
{
    private double _weights, _sum, _squares;

    /// <summary>Adds a value with its weight and its own variance.</summary>
    public void Add(double weight, double value, double variance) =>
        (_weights, _sum, _squares) = (_weights + weight, _sum + weight * value, _squares + weight * (value * value + variance));

    public double Mean => _sum / _weights;

    public double Sigma => Math.Sqrt(Math.Max(0, _squares / _weights - Mean * Mean));

    public Measured Measured => new(Mean, Sigma);
}
