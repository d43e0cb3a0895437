using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Accuracy.Comparing;

/// <summary>A measurand with one figure per toe or side view.</summary>
/// <param name="name">In measurands.md.</param>
/// <param name="unit">Of truth and figure.</param>
/// <param name="truth">Null where the measurand does not exist in this photograph.</param>
/// <param name="measured">Of a photograph that was measured.</param>
public sealed class AngleComparer(string name, string unit, Func<AngleCase, double?> truth, Func<AngleMeasurement, Figure> measured)
{
    /// <summary>Name in measurands.md in camel case, ending with the unit.</summary>
    public string Name => name;

    /// <summary>Unit of every error.</summary>
    public string Unit => unit;

    /// <summary>Compares; a photograph that was refused counts as missing.</summary>
    public Comparison Compare(AngleCase angles) =>
        truth(angles) is { } value ? Comparison.Of(angles.Seen is { } seen ? measured(seen).Measured : null, value) : Comparison.NotApplicable;
}
