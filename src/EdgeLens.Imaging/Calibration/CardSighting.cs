using System.Collections.Immutable;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Imaging.Calibration;

/// <summary>The card as found in one photograph, before any camera is fitted.</summary>
/// <param name="WidthPx">Of the photograph.</param>
/// <param name="HeightPx">Of the photograph.</param>
/// <param name="MarkerCount">Markers whose code was read and that agree with each other.</param>
/// <param name="Corners">Located to sub-pixel; a few may still be wrong (a shadow's border, the shank): the calibrator weighs and drops them.</param>
/// <param name="BlurSigmaPx">Median spread of the card's edges as a Gaussian's standard deviation: optics, focus and motion together.</param>
public sealed record CardSighting(int WidthPx, int HeightPx, int MarkerCount, ImmutableArray<CardCorner> Corners, double BlurSigmaPx);

/// <summary>One corner of the card in the photograph.</summary>
/// <param name="Design">Where it is on the card.</param>
/// <param name="Pixel">Where it was found.</param>
/// <param name="Kind">What meets there.</param>
/// <param name="StandardUncertaintyPx">Per coordinate, from the noise of the picture round the corner.</param>
public readonly record struct CardCorner(DesignPoint Design, PixelPoint Pixel, CornerKind Kind, double StandardUncertaintyPx);

/// <summary>What meets at a corner; for a marker's corner, on which side the white lies (spread ink moves it that way).</summary>
public enum CornerKind
{
    /// <summary>Four squares meet, black at black: spread ink leaves it in place.</summary>
    Board,

    /// <summary>Marker's corner.</summary>
    MarkerTopLeft,

    /// <summary>Marker's corner.</summary>
    MarkerTopRight,

    /// <summary>Marker's corner.</summary>
    MarkerBottomRight,

    /// <summary>Marker's corner.</summary>
    MarkerBottomLeft,
}
