namespace EdgeLens.Geometry.Plane;

/// <summary>A place in the photograph, pixels: x right, y down, the centre of the top left pixel is (0, 0).</summary>
public readonly record struct PixelPoint(double X, double Y);

/// <summary>
/// A place on the reference card or in the plane of the face, which lies parallel above it: millimetres, origin at the card's
/// top left corner, x right, y down. For a place above the card: the foot of the perpendicular.
/// </summary>
public readonly record struct CardPoint(double XMm, double YMm);

/// <summary>A place in the plane of the face, frame of the working end: millimetres, x to the left cutting edge, z from heel to toe.</summary>
public readonly record struct BladePoint(double XMm, double ZMm);
