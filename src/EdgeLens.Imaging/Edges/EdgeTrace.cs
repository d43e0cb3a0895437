using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Imaging.Edges;

/// <summary>An edge followed through the photograph.</summary>
/// <param name="Points">About a pixel apart.</param>
/// <param name="Optics">Blur and sharpening that the fit used.</param>
/// <param name="BlurSigmaPx">Blur with its uncertainty.</param>
/// <param name="Light">How the steel shows the light.</param>
public sealed record EdgeTrace(ImmutableArray<EdgeTracePoint> Points, EdgeOptics Optics, Measured BlurSigmaPx, PanelLight Light)
{
    /// <summary>Neighbouring points share pixels: their errors are correlated as exp(-½ (d / this)²) over the distance d. Blocks 9 px long overlap like a triangle of that base.</summary>
    public const double CorrelationPx = 5;
}

/// <summary>One place of a traced edge.</summary>
/// <param name="Position">On the silhouette.</param>
/// <param name="Outward">Unit normal away from the steel, pixel axes.</param>
/// <param name="SigmaPx">Standard uncertainty of the position along the normal.</param>
/// <param name="RadiusPx">Radius of the rounding as the light shows it.</param>
/// <param name="RadiusSigmaPx">Its standard uncertainty from the fit alone.</param>
/// <param name="FaceLevel">Linear brightness of the face here.</param>
/// <param name="GroundLevel">Linear brightness of the ground here.</param>
/// <param name="IsLit">True when a lit band was seen on the rounding.</param>
/// <param name="IsClipped">True when the photograph is clipped on the bright line.</param>
public readonly record struct EdgeTracePoint(
    PixelPoint Position, Vector2 Outward, double SigmaPx, double RadiusPx, double RadiusSigmaPx, double FaceLevel, double GroundLevel, bool IsLit, bool IsClipped);
