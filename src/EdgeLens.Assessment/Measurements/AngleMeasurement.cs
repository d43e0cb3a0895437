using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Measurements;

/// <summary>From where a working end was photographed (measurands.md).</summary>
public enum PhotographView
{
    /// <summary>Camera square to the face.</summary>
    Face,

    /// <summary>Toe towards the camera, terminal shank upright.</summary>
    Toe,

    /// <summary>Blade on edge, tip to the right or left.</summary>
    Side,
}

/// <summary>Which edges of a curette or scaler are meant to cut, as its face stands to its shank.</summary>
public enum CuttingEdges
{
    /// <summary>Face square to the shank: both.</summary>
    Both,

    /// <summary>Face offset, left edge lower with the shank upright.</summary>
    Left,

    /// <summary>Face offset, right edge lower.</summary>
    Right,
}

/// <summary>The angles that one toe or side view tells (measurands.md). What the view or the family does not have is missing, with the reason.</summary>
/// <param name="Photograph">Which file.</param>
/// <param name="Family">Stated by the user.</param>
/// <param name="View">Toe or side.</param>
/// <param name="FaceAngleDeg">Face line to the terminal shank's axis, the smaller of the two.</param>
/// <param name="InternalAngleLeftDeg">Face line to the left lateral surface.</param>
/// <param name="InternalAngleRightDeg">Face line to the right lateral surface.</param>
/// <param name="CuttingEdges">Which edges the offset of the face means to cut; null when the face angle is missing.</param>
/// <param name="WedgeAngleDeg">Bevel to the opposite surface.</param>
/// <param name="TipThicknessUm">At 0.05 mm from the tip.</param>
/// <param name="LeftSection">Outline below the left corner, or of the bevel in a side view; null where it is not seen.</param>
/// <param name="RightSection">Outline below the right corner; null where it is not seen.</param>
/// <param name="Lines">What was fitted, for drawing over the photograph.</param>
public sealed record AngleMeasurement(
    PhotographSummary Photograph,
    InstrumentFamily Family,
    PhotographView View,
    Figure FaceAngleDeg,
    Figure InternalAngleLeftDeg,
    Figure InternalAngleRightDeg,
    CuttingEdges? CuttingEdges,
    Figure WedgeAngleDeg,
    Figure TipThicknessUm,
    SectionProfile? LeftSection,
    SectionProfile? RightSection,
    ImmutableArray<FittedLine> Lines)
{
    /// <summary>Where the bevel of a luxator or elevator ends: along the blade, from where the lines of face and bevel meet to where those of bevel and back do, mm.</summary>
    public Figure BevelEndMm { get; init; } = Figure.Missing("A side view of a luxator or elevator shows it.");

    /// <summary>
    /// The radius of the rounding between face and bevel at the tip is less than this (k = 2), micrometres: a rounder tip would have been seen; null where the side view does not tell. The side view gives
    /// no radius, since a contour that fades next to the tip looks like a rounded one.
    /// </summary>
    public double? TipRadiusBelowUm { get; init; }

    /// <summary>A second bevel next to the tip's edge. Where there is one, <see cref="WedgeAngleDeg"/> is that of the bevel behind it.</summary>
    public SecondBevel SecondBevel { get; init; } = SecondBevel.Not("A side view of a luxator or elevator shows it.");
}

/// <summary>A straight line fitted in the photograph.</summary>
/// <param name="Role">What it is.</param>
/// <param name="From">One end, pixels.</param>
/// <param name="To">Other end, pixels.</param>
public readonly record struct FittedLine(LineRole Role, PixelPoint From, PixelPoint To);

/// <summary>What a fitted line is.</summary>
public enum LineRole
{
    /// <summary>Axis of the terminal shank.</summary>
    ShankAxis,

    /// <summary>Through the two cutting-edge corners; in a side view the plane of the face seen on edge.</summary>
    Face,

    /// <summary>Left lateral surface.</summary>
    LeftLateral,

    /// <summary>Right lateral surface.</summary>
    RightLateral,

    /// <summary>Bevel of a luxator or elevator.</summary>
    Bevel,

    /// <summary>Second bevel of a luxator or elevator, next to its edge.</summary>
    SecondBevel,
}
