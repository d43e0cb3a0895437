using System.Collections.Immutable;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Assessment.Trend;

namespace EdgeLens.Records.Inspections;

/// <summary>Every figure of an inspection as rows. The names are those of docs/inspection-json.md.</summary>
public static class InspectionFigures
{
    /// <summary>Greatest width loss at the stations that the policy judges: the verdict's own figure, and what a trend of the width runs over.</summary>
    public const string JudgedWidthLossPercent = "judgedWidthLossPercent";

    /// <summary>Length loss.</summary>
    public const string LengthLossMm = "lengthLossMm";

    /// <summary>Mean edge loss.</summary>
    public const string MeanEdgeLossUm = "meanEdgeLossUm";

    /// <summary>Area loss.</summary>
    public const string AreaLossPercent = "areaLossPercent";

    /// <summary>Share of an edge that reflects.</summary>
    public const string ReflectingFractionPercent = "reflectingFractionPercent";

    /// <summary>The rows, in the order of the report; positions from 0.</summary>
    /// <param name="inspection">What was found.</param>
    /// <param name="limits">Of its family: they say at which stations the width is judged.</param>
    public static ImmutableArray<FigureRow> Of(Inspection inspection, PolicyLimits limits)
    {
        ArgumentNullException.ThrowIfNull(inspection);
        FigureRow[] rows =
        [
            .. inspection.Today is { } today ? OfFace(today) : [],
            .. inspection.TodayAngles is { } angles ? OfAngles(angles) : [],
            .. inspection.Drift is { } drift ? OfDrift(drift, limits) : [],
        ];
        return [.. rows.Select((row, i) => row with { Position = i })];
    }

    private static IEnumerable<FigureRow> OfFace(FaceMeasurement face)
    {
        foreach (EdgeLightSummary edge in face.Light.Edges)
        {
            yield return FigureRow.Of(ReflectingFractionPercent, "%", edge.ReflectingFractionPercent, Name(edge.Part));
            yield return FigureRow.Of("greatestReflectionWidthUm", "µm", edge.GreatestReflectionWidthUm, Name(edge.Part));
            yield return FigureRow.Of("greatestEdgeRadiusUm", "µm", edge.Radius.GreatestUm, Name(edge.Part));
            yield return FigureRow.Of("edgeRadiusUm", "µm", edge.Radius.At1MmUm, Name(edge.Part), 1);
            yield return FigureRow.Of("edgeRadiusUm", "µm", edge.Radius.At2MmUm, Name(edge.Part), 2);
        }
        foreach (Nick nick in face.Nicks)
        {
            yield return FigureRow.Of("nickDepthUm", "µm", nick.DepthUm, Name(nick.Part), nick.StationMm);
            yield return FigureRow.Of("nickLengthMm", "mm", nick.LengthMm, Name(nick.Part), nick.StationMm);
        }
        yield return FigureRow.Of("toeRadiusUm", "µm", face.ToeRadiusUm);
        yield return FigureRow.Of("tipWidthUm", "µm", face.TipWidthUm);
        yield return FigureRow.Of("tipArcRadiusMm", "mm", face.TipArcRadiusMm);
        foreach (StationWidth w in face.Widths) yield return FigureRow.Of("widthMm", "mm", w.WidthMm, stationMm: w.StationMm);
        yield return FigureRow.Of("blurSigmaUm", "µm", face.Quality.BlurSigmaUm);
        yield return FigureRow.Of("tiltDeg", "°", face.Scale.TiltDeg);
    }

    private static IEnumerable<FigureRow> OfAngles(AngleMeasurement angles)
    {
        if (angles.View == PhotographView.Toe)
        {
            yield return FigureRow.Of("faceAngleDeg", "°", angles.FaceAngleDeg);
            yield return FigureRow.Of("internalAngleDeg", "°", angles.InternalAngleLeftDeg, "left");
            yield return FigureRow.Of("internalAngleDeg", "°", angles.InternalAngleRightDeg, "right");
        }
        else
        {
            yield return FigureRow.Of("wedgeAngleDeg", "°", angles.WedgeAngleDeg);
            yield return FigureRow.Of("tipThicknessUm", "µm", angles.TipThicknessUm);
            yield return FigureRow.Of("bevelEndMm", "mm", angles.BevelEndMm);
            yield return FigureRow.Of("secondBevelLengthMm", "mm", angles.SecondBevel.LengthMm);
            yield return FigureRow.Of("secondBevelSteeperDeg", "°", angles.SecondBevel.SteeperDeg);
            yield return FigureRow.Of("edgeWedgeAngleDeg", "°", angles.SecondBevel.EdgeAngleDeg);
        }
    }

    private static IEnumerable<FigureRow> OfDrift(DriftMeasurement drift, PolicyLimits limits)
    {
        foreach (WearReading wear in WearReading.Of(drift, limits))
            yield return FigureRow.Of(wear.Measure.Name == "widthLossPercent" ? JudgedWidthLossPercent : wear.Measure.Name, wear.Measure.Unit, wear.Loss, shared: wear.SharedStandardUncertainty);
        yield return FigureRow.Of("greatestEdgeLossUm", "µm", drift.GreatestEdgeLossUm);
        yield return FigureRow.Of("shapeDriftUm", "µm", drift.ShapeDriftUm);
        foreach (StationWidthLoss w in drift.WidthLosses)
        {
            yield return FigureRow.Of("widthLossUm", "µm", w.LossUm, stationMm: w.StationMm);
            yield return FigureRow.Of("widthLossPercent", "%", w.LossPercent, stationMm: w.StationMm);
        }
    }

    private static string Name(EdgePart part) => part switch { EdgePart.Left => "left", EdgePart.Right => "right", _ => "toe" };
}
