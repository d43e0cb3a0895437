using System.Collections.Immutable;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Geometry.Fitting;

/// <summary>A least-distance circle, in the unit of its points.</summary>
/// <param name="Centre">Centre.</param>
/// <param name="Radius">Radius.</param>
/// <param name="ArcDeg">The part of the full turn that the points cover, seen from the centre.</param>
/// <param name="ResidualSd">Standard deviation of the distances from the circle, n - 3 degrees of freedom.</param>
/// <param name="CentreXSd">Standard uncertainty of the centre's x for independent points.</param>
/// <param name="CentreYSd">Standard uncertainty of the centre's y for independent points.</param>
/// <param name="RadiusSd">Standard uncertainty of the radius for independent points. Correlated points: use the sensitivities.</param>
/// <param name="Sensitivities">One per point, in their order.</param>
public sealed record FittedCircle(
    Vector2 Centre, double Radius, double ArcDeg, double ResidualSd, double CentreXSd, double CentreYSd, double RadiusSd, ImmutableArray<CircleSensitivity> Sensitivities);

/// <summary>How far centre and radius move when one point moves outward along its radius by one unit (Jacobian of the fit, JCGM 100:2008 5.1.3).</summary>
public readonly record struct CircleSensitivity(double CentreX, double CentreY, double Radius);
