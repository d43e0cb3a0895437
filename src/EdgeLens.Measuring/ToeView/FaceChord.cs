using EdgeLens.Geometry.Plane;

namespace EdgeLens.Measuring.ToeView;

/// <summary>The face's line as a toe view shows it.</summary>
/// <param name="Left">A place of it on the picture's left, pixels.</param>
/// <param name="Right">Another one on the picture's right.</param>
/// <param name="TurnSigmaRad">Standard uncertainty of its direction in the picture.</param>
internal readonly record struct FaceChord(PixelPoint Left, PixelPoint Right, double TurnSigmaRad);
