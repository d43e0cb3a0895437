using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Measurements;

/// <summary>Everything that one face-view photograph tells, in the frame of the working end (measurands.md).</summary>
/// <param name="Photograph">Which file, and how it was taken.</param>
/// <param name="Family">Stated by the user; decides which figures make sense.</param>
/// <param name="Scale">How pixels became millimetres.</param>
/// <param name="Quality">What the quality gate measured.</param>
/// <param name="Outline">From the heel's left edge round the apex to the heel's right edge.</param>
/// <param name="Widths">At 0.5, 1.0, 1.5 ... mm back from the station origin, as far as the blade reaches.</param>
/// <param name="StationOriginZMm">z of the origin of stations in the outline's frame: the as-new apex if known, else the photograph's own apex.</param>
/// <param name="ToeRadiusUm">Curettes.</param>
/// <param name="TipWidthUm">Scalers: width at 0.25 mm from the apex.</param>
/// <param name="TipArcRadiusMm">Luxators, elevators.</param>
/// <param name="Nicks">Stretches of a cutting edge more than 20 µm inside the smooth edge.</param>
/// <param name="Light">The light reflected along the outline.</param>
public sealed record FaceMeasurement(
    PhotographSummary Photograph,
    InstrumentFamily Family,
    ScaleSummary Scale,
    QualitySummary Quality,
    Outline Outline,
    ImmutableArray<StationWidth> Widths,
    double StationOriginZMm,
    Figure ToeRadiusUm,
    Figure TipWidthUm,
    Figure TipArcRadiusMm,
    ImmutableArray<Nick> Nicks,
    EdgeLight Light)
{
    /// <summary>z of the line at the heel where the ground face ends and the neck begins, in the outline's frame; null where the photograph does not show it.</summary>
    public Measured? FaceEndZMm { get; init; }
}

/// <summary>The photograph as a file.</summary>
/// <param name="FileName">Without folder.</param>
/// <param name="Sha256">Of the file's bytes, lower-case hex.</param>
/// <param name="WidthPx">After turning by EXIF orientation.</param>
/// <param name="HeightPx">After turning by EXIF orientation.</param>
public sealed record PhotographSummary(string FileName, string Sha256, int WidthPx, int HeightPx);

/// <summary>How pixels became millimetres in the plane of the face.</summary>
/// <param name="MmPerPx">At the blade's middle.</param>
/// <param name="RelativeStandardUncertainty">Of every length, from corner residuals, print, lens and unknown height; fully correlated between lengths of one photograph.</param>
/// <param name="CornerCount">Card corners used.</param>
/// <param name="CornerResidualPx">Root mean square distance of the corners from the fitted card, pixels per coordinate.</param>
/// <param name="TiltDeg">Camera's axis from the card's normal.</param>
/// <param name="DistanceMm">Camera to card.</param>
/// <param name="HeightOverCardMm">Stated height of the face over the card with its standard uncertainty.</param>
/// <param name="ViewSlope">Seen from the camera, a point that stands 1 mm above the face's plane at the blade's middle appears shifted by this much in that plane, mm along
/// card x and y (view direction v from surface to camera: -v.xy / v.z). It tells how a tilt moved what leaves the plane; null when not known.</param>
public sealed record ScaleSummary(
    double MmPerPx, double RelativeStandardUncertainty, int CornerCount, double CornerResidualPx, Measured TiltDeg, Measured DistanceMm, Measured HeightOverCardMm,
    Vector2? ViewSlope = null)
{
    /// <summary>The parts of <see cref="RelativeStandardUncertainty"/>; null where they are not known.</summary>
    public ScaleParts? Parts { get; init; }
}

/// <summary>What the quality gate measured on a photograph that it let pass.</summary>
/// <param name="BlurSigmaUm">Standard deviation of the edge spread across the cutting edge, in the plane of the face.</param>
/// <param name="ClippedEdgePercent">Share of the edge's length where the bright line is clipped.</param>
/// <param name="GroundLevel">Linear brightness of the black window, share of full scale.</param>
/// <param name="FaceLevel">Linear brightness of the face beside the edge, share of full scale.</param>
public sealed record QualitySummary(Measured BlurSigmaUm, double ClippedEdgePercent, double GroundLevel, double FaceLevel);

/// <summary>Silhouette of the working end: a U from the heel's left edge round the apex to the heel's right edge, at least one point per pixel.</summary>
/// <param name="Points">In order along the U: left side, apex, right side. z = 0 is the heel, so that the apex's z is the blade's length.</param>
/// <param name="ApexIndex">The point farthest along +z.</param>
/// <param name="BladeFromCard">Carries card millimetres (in the face's plane) into the frame of the working end; scale 1.</param>
public sealed record Outline(ImmutableArray<OutlinePoint> Points, int ApexIndex, Similarity BladeFromCard)
{
    /// <summary>Where the outline ends towards the toe.</summary>
    public OutlinePoint Apex => Points[ApexIndex];

    /// <summary>How the points' errors hang together.</summary>
    public OutlineNoise Noise { get; init; } = new();

    /// <summary>Standard uncertainty of the heel's place (z = 0), a soft landmark: also that of the blade's length. Null: not stated.</summary>
    public double? HeelStandardUncertaintyMm { get; init; }
}

/// <summary>One place of the outline.</summary>
/// <param name="Position">On the silhouette, face plane.</param>
/// <param name="ArcMm">Length along the outline from its first point.</param>
/// <param name="Inward">Unit normal into the steel, components along blade x and z.</param>
/// <param name="StandardUncertaintyUm">Of the position along the normal, from noise, blur and light on the edge; without scale.</param>
public readonly record struct OutlinePoint(BladePoint Position, double ArcMm, Vector2 Inward, double StandardUncertaintyUm);

/// <summary>Width of the outline along x at one station.</summary>
/// <param name="StationMm">Back from the station origin.</param>
/// <param name="WidthMm">With its full uncertainty, scale included.</param>
/// <param name="LocalStandardUncertaintyMm">The part of it that does not come from the scale: what counts when two photographs are compared after registration.</param>
public readonly record struct StationWidth(double StationMm, Measured WidthMm, double LocalStandardUncertaintyMm);

/// <summary>Which part of the outline, seen from heel to toe with the face up.</summary>
public enum EdgePart
{
    /// <summary>Left side, +x.</summary>
    Left,

    /// <summary>Within 60° of the apex as seen from the toe's centre; the whole tip arc of a luxator or elevator.</summary>
    Toe,

    /// <summary>Right side, -x.</summary>
    Right,
}

/// <summary>A gap in a cutting edge.</summary>
/// <param name="Part">Which edge.</param>
/// <param name="StationMm">Deepest place, back from the station origin.</param>
/// <param name="ArcMm">Deepest place along the outline.</param>
/// <param name="DepthUm">Below the smooth edge.</param>
/// <param name="LengthMm">Where it is more than 20 µm deep.</param>
public sealed record Nick(EdgePart Part, double StationMm, double ArcMm, Measured DepthUm, Measured LengthMm);
