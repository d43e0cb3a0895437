using EdgeLens.Geometry.Figures;

namespace EdgeLens.Imaging.Calibration;

/// <summary>A photograph of a thing of known size, taken with the lens of a profile.</summary>
/// <param name="Date">When.</param>
/// <param name="Gauge">What was photographed: "needle 21G".</param>
/// <param name="DiameterMm">As measured.</param>
/// <param name="LeastMm">A right measurement is not below this.</param>
/// <param name="GreatestMm">Nor above this.</param>
/// <param name="Result">pass, fail or undecided.</param>
/// <param name="Due">When to do it again.</param>
public sealed record LensVerification(DateOnly Date, string Gauge, Measured DiameterMm, double LeastMm, double GreatestMm, string Result, DateOnly Due);
