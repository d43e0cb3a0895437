using System.Collections.Immutable;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Imaging.Edges;

/// <summary>A soft panel.</summary>
/// <param name="TowardsPx">Unit vector in the picture from the blade to the panel.</param>
/// <param name="Light">As steel shows it.</param>
public sealed record Panel(Vector2 TowardsPx, SteelLight Light);

/// <summary>How an edge stands to the panels.</summary>
public enum Exposure
{
    /// <summary>It mirrors a whole panel.</summary>
    Full,

    /// <summary>It may mirror a panel, or a part of it: what is seen is a lower bound.</summary>
    Partial,

    /// <summary>It faces no panel: a dull edge stays dark.</summary>
    None,
}

/// <summary>The panels round the blade, and which of them an edge mirrors.</summary>
/// <remarks>
/// The normals of a rounding sweep from the face's to the edge's outward one. A panel of elevation ε whose azimuth is off that plane by φ stands outside it by the angle
/// asin(cos ε sin φ); while that is below its half angle h some rounding mirrors it: sin φ &lt; sin h / cos ε.
/// </remarks>
/// <param name="Panels">At least one.</param>
/// <param name="IsPlaceKnown">False when the photograph does not tell where panels stand: then no edge is known to be dark.</param>
public sealed record PanelLight(ImmutableArray<Panel> Panels, bool IsPlaceKnown)
{
    // h = 20 to 27° and ε = 30 to 46° give φ = 23 to 41°. A panel stands beside the blade to within about 8° and the blade lies straight to within about 10°, together 7° (1 σ):
    // 31° - 2 σ (5° and 7°) = 14° is lit in full for certain; some more where only the panel's rim is cut off. 31° + 2 σ = 48°, and a roughness lobe of some 5°, are beyond any light.
    private const double FullDeg = 20;

    /// <summary>Cosine of the greatest angle between an edge's outward normal and a panel that it mirrors in full.</summary>
    public static readonly double FullCosine = Cosine(FullDeg);
    private const double NoneDeg = 55;

    /// <summary>The panel that an edge faces most.</summary>
    /// <param name="outward">The edge's unit normal in the picture, away from the steel.</param>
    public Panel Facing(Vector2 outward) => Panels.MaxBy(p => p.TowardsPx.Dot(outward))!;

    /// <summary>How much of it the edge mirrors.</summary>
    /// <param name="outward">The edge's unit normal in the picture, away from the steel.</param>
    public Exposure ExposureOf(Vector2 outward)
    {
        if (!IsPlaceKnown) return Exposure.Partial;
        double cosine = Facing(outward).TowardsPx.Dot(outward);
        return cosine > FullCosine ? Exposure.Full : cosine > Cosine(NoneDeg) ? Exposure.Partial : Exposure.None;
    }

    private static double Cosine(double degrees) => Math.Cos(degrees * Math.PI / 180);
}
