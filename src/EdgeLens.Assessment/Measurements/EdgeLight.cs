using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Measurements;

/// <summary>The light along the outline, and the rounding that it tells.</summary>
/// <param name="Samples">Every 0.1 mm of arc.</param>
/// <param name="Edges">Summed up for each part that cuts.</param>
/// <param name="ReferenceDescription">What "fully lit" means here: the card's white patch, or the steel's own highlight.</param>
public sealed record EdgeLight(ImmutableArray<LightSample> Samples, ImmutableArray<EdgeLightSummary> Edges, string ReferenceDescription)
{
    /// <summary>The sharp limit that <see cref="Edges"/> were summed up with, µm. A policy with another one does not judge them. Null: that of the policy at hand.</summary>
    public double? SharpLimitUm { get; init; }
}

/// <summary>One place along the edge.</summary>
/// <param name="ArcMm">Along the outline.</param>
/// <param name="Part">Which edge.</param>
/// <param name="StationMm">Back from the station origin.</param>
/// <param name="ReflectionWidthUm">Equivalent width of the bright line: the integral of brightness above the local background across the edge over that of a fully lit patch.
/// Missing where the line is clipped or the light cannot show it.</param>
/// <param name="RadiusUm">Radius of the rounding between face and lateral surface that shows such a line; missing where the width is, and where the
/// light may reach the place in part only.</param>
public sealed record LightSample(double ArcMm, EdgePart Part, double StationMm, Figure ReflectionWidthUm, Figure RadiusUm);

/// <summary>The light along one cutting edge.</summary>
/// <param name="Part">Which edge.</param>
/// <param name="ReflectingFractionPercent">Share of its length whose reflection width is above the sharp limit.</param>
/// <param name="GreatestReflectionWidthUm">Over 0.5 mm of edge.</param>
/// <param name="DullStretches">Where the line is above the sharp limit, in order along the edge.</param>
/// <param name="Radius">How round the edge is.</param>
public sealed record EdgeLightSummary(
    EdgePart Part, Figure ReflectingFractionPercent, Figure GreatestReflectionWidthUm, ImmutableArray<DullStretch> DullStretches, EdgeRadiusSummary Radius);

/// <summary>A stretch of an edge that reflects.</summary>
/// <param name="FromStationMm">Nearer to the apex.</param>
/// <param name="ToStationMm">Nearer to the heel.</param>
/// <param name="LengthMm">Along the edge.</param>
/// <param name="GreatestReflectionWidthUm">Within it.</param>
/// <param name="GreatestRadiusUm">Within it; missing where no radius is known.</param>
public readonly record struct DullStretch(double FromStationMm, double ToStationMm, double LengthMm, Measured GreatestReflectionWidthUm, Figure GreatestRadiusUm);

/// <summary>The radius of one cutting edge, summed up.</summary>
/// <param name="GreatestUm">Greatest mean over 0.5 mm of edge.</param>
/// <param name="WorkingThirdUm">Mean over the third next to the toe or tip, which does most of the work; of an edge round the toe, over the whole of it.</param>
/// <param name="At1MmUm">Mean over 0.5 mm of edge about 1 mm from the apex: a station of published studies (J Formos Med Assoc 1991;90:782, J Periodontol 1985;56:532).</param>
/// <param name="At2MmUm">The same about 2 mm.</param>
public sealed record EdgeRadiusSummary(Figure GreatestUm, Figure WorkingThirdUm, Figure At1MmUm, Figure At2MmUm)
{
    /// <summary>An edge whose radius is not known at all.</summary>
    public static EdgeRadiusSummary Missing(string why) => new(Figure.Missing(why), Figure.Missing(why), Figure.Missing(why), Figure.Missing(why));
}
