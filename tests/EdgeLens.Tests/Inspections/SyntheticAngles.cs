using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Sharpening;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Tests.Inspections;

/// <summary>Toe and side views with chosen angles.</summary>
internal static class SyntheticAngles
{
    private static readonly Figure NotHere = Figure.Missing("This view does not show it.");

    /// <summary>A toe view; the right angle may be missing.</summary>
    public static AngleMeasurement Toe(double leftDeg, double? rightDeg, double faceDeg = 89.6) => new(
        new("toe.jpg", new string('a', 64), 3000, 2250), InstrumentFamily.UniversalCurette, PhotographView.Toe, new Measured(faceDeg, 0.5), new Measured(leftDeg, 0.6),
        rightDeg is { } right ? new Measured(right, 0.6) : Figure.Missing("The outline of this lateral surface is too faint."), CuttingEdges.Both, NotHere, NotHere,
        Straight(leftDeg, 0.31), rightDeg is { } r ? Straight(r, 0.31) : null,
        [new(LineRole.ShankAxis, new(40, 5), new(42, 60)), new(LineRole.Face, new(20, 80), new(60, 80)), new(LineRole.LeftLateral, new(58, 85), new(52, 100))]);

    /// <summary>A side view of a luxator.</summary>
    public static AngleMeasurement Side(double wedgeDeg) => new(
        new("side.jpg", new string('b', 64), 3000, 2250), InstrumentFamily.Luxator, PhotographView.Side, NotHere, NotHere, NotHere, null, new Measured(wedgeDeg, 0.4),
        Figure.Missing("The picture of the tip's arc covers it."), Straight(wedgeDeg, 0.42), null, [new(LineRole.Face, new(5, 40), new(60, 40)), new(LineRole.Bevel, new(90, 40), new(60, 70))]);

    /// <summary>An inspection with angles of today and as new.</summary>
    public static Inspection With(this Inspection inspection, AngleMeasurement today, AngleMeasurement? asNew) => inspection with
    {
        TodayAngles = today,
        BaselineAngles = asNew,
        AngleDrift = asNew is null ? null : AngleDrift.Between(asNew, today).Value,
        StonePlans = EdgeStonePlan.For(today, asNew),
    };

    private static SectionProfile Straight(double angleDeg, double depthMm) => new([new(0, 0), new(depthMm / Math.Tan(angleDeg * Math.PI / 180), depthMm)]);
}
