using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Drift;

/// <summary>A place on an outline that a figure depends on, frame of the baseline.</summary>
/// <param name="ArcMm">Along the baseline: says how alike the errors of two places are.</param>
/// <param name="Position">x and z, mm.</param>
/// <param name="Inward">Unit normal into the steel.</param>
/// <param name="StandardUncertaintyMm">Of the outline's noise there.</param>
internal readonly record struct EdgePlace(double ArcMm, Vector2 Position, Vector2 Inward, double StandardUncertaintyMm);

/// <summary>A figure's change per mm that the outline is displaced inwards at a place.</summary>
internal readonly record struct Weighted(EdgePlace Place, double Weight);
