using EdgeLens.Geometry.Figures;

namespace EdgeLens.Accuracy.Comparing;

/// <summary>A measurand with one figure per photograph.</summary>
/// <param name="name">In measurands.md.</param>
/// <param name="unit">Of truth and figure.</param>
/// <param name="truth">Null where the measurand does not exist in this photograph.</param>
/// <param name="measured">The program's figure; null where it gave none.</param>
public sealed class FigureComparer(string name, string unit, Func<FaceCase, double?> truth, Func<FaceCase, Measured?> measured) : IMeasurandComparer
{
    /// <inheritdoc />
    public string Name => name;

    /// <inheritdoc />
    public string Unit => unit;

    /// <inheritdoc />
    public Comparison Compare(FaceCase face) => truth(face) is { } value ? Comparison.Of(measured(face), value) : Comparison.NotApplicable;
}
