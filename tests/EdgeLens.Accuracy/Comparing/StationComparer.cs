using EdgeLens.Geometry.Figures;

namespace EdgeLens.Accuracy.Comparing;

/// <summary>A measurand with one figure per station along the blade.</summary>
/// <param name="name">In measurands.md.</param>
/// <param name="unit">Of truth and figure.</param>
/// <param name="truth">Station and true value, at the stations where the measurand exists.</param>
/// <param name="measured">Station and the program's figure; null where it gave none at all.</param>
public sealed class StationComparer(
    string name, string unit, Func<FaceCase, IEnumerable<(double StationMm, double Value)>> truth, Func<FaceCase, IEnumerable<(double StationMm, Measured Value)>?> measured)
    : IMeasurandComparer
{
    /// <summary>Stations are multiples of 0.5 mm, exactly: what is farther off is another station.</summary>
    private const double SameStationMm = 1e-6;

    /// <inheritdoc />
    public string Name => name;

    /// <inheritdoc />
    public string Unit => unit;

    /// <inheritdoc />
    public Comparison Compare(FaceCase face)
    {
        (double StationMm, Measured Value)[] seen = [.. measured(face) ?? []];
        (double StationMm, double Value)[] wanted = [.. truth(face)];
        ErrorSample[] samples =
        [
            .. from station in wanted
               from figure in seen.Where(figure => Math.Abs(figure.StationMm - station.StationMm) < SameStationMm).Take(1)
               select ErrorSample.Of(figure.Value, station.Value),
        ];
        return new([.. samples], wanted.Length - samples.Length);
    }
}
