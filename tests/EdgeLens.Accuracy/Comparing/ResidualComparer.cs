namespace EdgeLens.Accuracy.Comparing;

/// <summary>A figure of the photograph that should be 0 and states no uncertainty.</summary>
/// <param name="name">Of the figure.</param>
/// <param name="unit">Of the figure.</param>
/// <param name="residual">Null where there is none though there should be one.</param>
public sealed class ResidualComparer(string name, string unit, Func<FaceCase, double?> residual) : IMeasurandComparer
{
    /// <inheritdoc />
    public string Name => name;

    /// <inheritdoc />
    public string Unit => unit;

    /// <inheritdoc />
    public Comparison Compare(FaceCase face) => residual(face) is { } value ? new([new ErrorSample(value, null)], 0) : Comparison.AllMissing(1);
}
