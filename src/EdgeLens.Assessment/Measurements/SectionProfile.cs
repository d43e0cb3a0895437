using System.Collections.Immutable;

namespace EdgeLens.Assessment.Measurements;

/// <summary>The outline of a cutting edge's section next to its corner, as a toe or side view shows it.</summary>
/// <param name="Points">From the corner down, in order of depth.</param>
public sealed record SectionProfile(ImmutableArray<SectionPoint> Points);

/// <summary>A place of the section's outline.</summary>
/// <param name="InwardMm">From the corner along the face into the steel.</param>
/// <param name="DepthMm">Below the face.</param>
public readonly record struct SectionPoint(double InwardMm, double DepthMm);
