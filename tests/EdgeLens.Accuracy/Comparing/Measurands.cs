using System.Collections.Immutable;
using EdgeLens.Accuracy.Truth;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Accuracy.Comparing;

/// <summary>Everything the bench compares. A new measurand is one line here, or a comparer of its own and one line.</summary>
public static class Measurands
{
    /// <summary>In the order of the printed table.</summary>
    public static ImmutableArray<IMeasurandComparer> All { get; } =
    [
        new OutlineComparer(),
        // Needs no truth: the residual itself is the error. The limit that is wanted is 0.15 px.
        new ResidualComparer("cornerResidualPx", "px", face => face.Seen?.Measurement.Scale.CornerResidualPx),
        new FigureComparer("scalePercent", "%", _ => 0, ScaleErrorPercent),
        new StationComparer("widthAtStationMm", "mm", Widths, face => face.Seen?.Measurement.Widths.Select(width => (width.StationMm, width.WidthMm))),
        new StationComparer("widthAtStationPercent", "%", face => Widths(face).Select(width => (width.StationMm, 100.0)), WidthsPercent),
        new FigureComparer("toeRadiusUm", "µm", face => face.Family is { TipCuts: false, HasPointedTip: false } ? face.Truth.WorkingEnd.ToeRadiusMm * 1000 : null,
            face => face.Seen?.Measurement.ToeRadiusUm.Measured),
        new FigureComparer("tipWidthUm", "µm", face => face.Family.HasPointedTip ? face.Truth.WorkingEnd.TipWidthMm * 1000 : null, face => face.Seen?.Measurement.TipWidthUm.Measured),
        new FigureComparer("tipArcRadiusMm", "mm", face => face.Family.TipCuts ? face.Truth.WorkingEnd.TipArcRadiusMm : null, face => face.Seen?.Measurement.TipArcRadiusMm.Measured),
        new StationComparer("widthLossUm", "µm", WidthLosses, face => face.Drift?.WidthLosses.Select(loss => (loss.StationMm, loss.LossUm))),
        new FigureComparer("lengthLossUm", "µm", face => face.Truth.Drift?.LengthLossUm, face => face.Drift?.LengthLossUm.Measured),
        new FigureComparer("areaLossPercent", "%", face => face.Truth.Drift?.AreaLossPercent, face => face.Drift?.AreaLossPercent.Measured),
        new EdgeLossComparer(),
        new NickComparer(),
        new InventedNickComparer(),
        new SharpFromDullComparer(),
        new EdgeRadiusComparer(),
    ];

    /// <summary>Stations beyond today's apex have no width.</summary>
    private static IEnumerable<(double StationMm, double Value)> Widths(FaceCase face) =>
        face.Truth.WorkingEnd.StationsFromAsNewApexMm.Zip(face.Truth.WorkingEnd.WidthsMm).Where(station => station.Second > 0);

    private static IEnumerable<(double StationMm, double Value)> WidthLosses(FaceCase face) => face.Truth is not { Drift: { } drift, WorkingEnd: var end } ? [] :
        end.StationsFromAsNewApexMm.Zip(drift.WidthLossUm).Where((_, station) => end.WidthsMm[station] > 0);

    /// <summary>Measured width in percent of the true one.</summary>
    private static IEnumerable<(double StationMm, Measured Value)>? WidthsPercent(FaceCase face) =>
        face.Seen is null ? null :
            from width in face.Seen.Measurement.Widths
            from truth in Widths(face)
            where Math.Abs(truth.StationMm - width.StationMm) < 1e-6
            select (width.StationMm, width.WidthMm.Scale(100 / truth.Value));

    private static Measured? ScaleErrorPercent(FaceCase face)
    {
        if (face.Seen is not { } seen) return null;
        FaceTruth truth = face.Truth;
        double percent = 100 * (seen.MmPerPxAt(new(truth.MiddlePixel.X, truth.MiddlePixel.Y)) / truth.MmPerPx - 1);
        return new Measured(percent, 100 * seen.Measurement.Scale.RelativeStandardUncertainty);
    }
}
