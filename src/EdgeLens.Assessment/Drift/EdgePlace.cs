using EdgeLens.Assessment.Measurements;
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

/// <summary>Which errors of one photograph's outline vary along the edge, and how alike they are at two places; mm².</summary>
internal sealed record EdgeNoise(OutlineNoise Noise)
{
    public double Fast(EdgePlace a, EdgePlace b) => a.StandardUncertaintyMm * b.StandardUncertaintyMm * Noise.Fast(a.ArcMm - b.ArcMm);

    public double Slow(EdgePlace a, EdgePlace b) => Noise.Slow(a.ArcMm - b.ArcMm);

    public double Both(EdgePlace a, EdgePlace b) => Fast(a, b) + Slow(a, b);
}
