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

    /// <summary>Of toe and side views.</summary>
    public static ImmutableArray<AngleComparer> Angles { get; } =
    [
        new AngleComparer("faceAngleDeg", "°", angles => angles.Truth.FaceAngleDeg, seen => seen.FaceAngleDeg),
        new AngleComparer("internalAngleLeftDeg", "°", angles => angles.Truth.InternalAngleLeftDeg, seen => seen.InternalAngleLeftDeg),
        new AngleComparer("internalAngleRightDeg", "°", angles => angles.Truth.InternalAngleRightDeg, seen => seen.InternalAngleRightDeg),
        new AngleComparer("wedgeAngleDeg", "°", angles => Second(angles)?.PrimaryDeg ?? angles.Truth.WedgeAngleDeg, seen => seen.WedgeAngleDeg),
        new AngleComparer("tipThicknessUm", "µm", TipThicknessUm, seen => seen.TipThicknessUm),
        new AngleComparer("secondBevelLengthMm", "mm", angles => Second(angles)?.LengthMm ?? (angles.Seen?.SecondBevel.IsThere == true ? 0 : null), seen => seen.SecondBevel.LengthMm),
        new AngleComparer("secondBevelSteeperDeg", "°", angles => Second(angles) is { } second ? second.EdgeDeg - second.PrimaryDeg : null, seen => seen.SecondBevel.SteeperDeg),
        new AngleComparer("edgeWedgeAngleDeg", "°", angles => Second(angles)?.EdgeDeg, seen => seen.SecondBevel.EdgeAngleDeg),
    ];

    /// <summary>A toe view's working edge, told by the face's offset: error 1 where it is another than the true one, missing where none is told.</summary>
    public const string WorkingEdge = "workingEdge";

    /// <summary>The view that the program takes a photograph for: error 1 where it is another than the index says, missing where it takes none.</summary>
    public const string View = "view";

    /// <summary>Every row of the table: name and unit.</summary>
    public static ImmutableArray<(string Name, string Unit)> Rows { get; } =
    [
        .. All.Select(m => (m.Name, m.Unit)), .. Angles.Select(m => (m.Name, m.Unit)), (WorkingEdge, "share told wrong"), (View, "share told wrong"),
    ];

    /// <summary>Holds a statement against the true one.</summary>
    /// <param name="told">Null where nothing was said.</param>
    /// <param name="truth">Null where the photograph has no such thing.</param>
    public static Comparison Told(string? told, string? truth) => (told, truth) switch
    {
        (_, null) => Comparison.NotApplicable,
        (null, _) => Comparison.AllMissing(1),
        _ => new([new ErrorSample(told == truth ? 0 : 1, null)], 0),
    };

    /// <summary>Null where there is none: one that is told there counts with all its length as the error.</summary>
    private static SecondBevelTruth? Second(AngleCase angles) => angles.Truth.SecondBevel is { LengthMm: > 0 } second ? second : null;

    /// <summary>
    /// Thickness of the section 0.05 mm behind its foremost place: a rounding of radius r between a face and a bevel at the wedge angle, face level, the bevel falling
    /// with the tangent; the rounding of the truth's table next to the apex.
    /// </summary>
    private static double? TipThicknessUm(AngleCase angles)
    {
        if (angles.Truth.WedgeAngleDeg is not { } wedgeDeg) return null;
        double wedge = wedgeDeg * Math.PI / 180, r = angles.Truth.EdgeRadiusUm.MinBy(sample => Math.Abs(sample[0] - angles.Truth.ApexArcMm))[1], centre = r / Math.Tan(wedge / 2);
        double at = centre - r + 50, x = at - centre;
        double upper = x < 0 ? -r + Math.Sqrt(r * r - x * x) : 0, touches = centre - r * Math.Sin(wedge);
        double lower = at < touches ? -r - Math.Sqrt(r * r - x * x) : -at * Math.Tan(wedge);
        return upper - lower;
    }

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
