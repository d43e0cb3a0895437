using System.Collections.Immutable;
using EdgeLens.Accuracy.Truth;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Accuracy.Comparing;

/// <summary>One good face view: the truth, and what the program made of it.</summary>
/// <param name="Family">Of the working end.</param>
/// <param name="Truth">Of this photograph.</param>
/// <param name="Seen">Null when the program refused.</param>
/// <param name="Baseline">The as-new photograph of the same working end; null for the as-new one itself.</param>
/// <param name="Drift">Null for the as-new one, and when the program gave none.</param>
public sealed record FaceCase(FamilyTraits Family, FaceTruth Truth, SeenFace? Seen, BaselineCase? Baseline, DriftMeasurement? Drift);

/// <summary>The as-new photograph that a later one is compared with.</summary>
/// <param name="Truth">Of the as-new photograph.</param>
/// <param name="Seen">Null when the program refused it.</param>
public sealed record BaselineCase(FaceTruth Truth, SeenFace? Seen);

/// <summary>What the program measured in one photograph, and the way back from its frame into the picture.</summary>
/// <param name="Measurement">As the program reports it.</param>
/// <param name="PixelOf">Where a place of the measurement's frame lies in the photograph, through the program's own calibration.</param>
/// <param name="MmPerPxAt">The program's local scale in the face's plane at a pixel.</param>
public sealed record SeenFace(FaceMeasurement Measurement, Func<BladePoint, PixelPoint> PixelOf, Func<PixelPoint, double> MmPerPxAt)
{
    /// <summary>The measured outline back in the picture: whatever scale, height or frame the program chose cancels.</summary>
    public Curve Silhouette { get; } = new([.. Measurement.Outline.Points.Select(point => ToVector(PixelOf(point.Position)))]);

    private readonly ImmutableArray<double> _arcsMm = [.. Measurement.Outline.Points.Select(point => point.ArcMm)];

    /// <summary>Pixel of the place at an arc of the measured outline, mm as the program counts them.</summary>
    public Vector2 PixelAt(double arcMm) => Silhouette.At(CurvePlace.In(_arcsMm, arcMm));

    /// <summary>Stated standard uncertainty of the outline along its normal at a place of <see cref="Silhouette"/>, µm.</summary>
    public double UncertaintyUmAt(CurvePlace place) =>
        (1 - place.Share) * Measurement.Outline.Points[place.Segment].StandardUncertaintyUm + place.Share * Measurement.Outline.Points[place.Segment + 1].StandardUncertaintyUm;

    private static Vector2 ToVector(PixelPoint p) => new(p.X, p.Y);
}
