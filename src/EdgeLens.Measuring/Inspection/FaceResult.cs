using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Edges;

namespace EdgeLens.Measuring.Inspection;

/// <summary>What a face view gives.</summary>
/// <param name="Measurement">Everything measured.</param>
/// <param name="Calibration">The way back into the picture.</param>
/// <param name="Trace">The edge in the photograph, for drawing it there.</param>
/// <param name="Drift">Against the baseline: the drift, or why the two could not be compared; null without a baseline.</param>
public sealed record FaceResult(FaceMeasurement Measurement, CardCalibration Calibration, EdgeTrace Trace, Outcome<DriftMeasurement>? Drift);
