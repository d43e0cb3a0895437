using System.Collections.Immutable;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Imaging.Silhouettes;

/// <summary>The working end's silhouette to within a few pixels: where the exact fit starts.</summary>
/// <param name="Points">A U in the photograph, one point per pixel, from one side's heel end round the apex to the other's.</param>
/// <param name="ApexIndex">The point farthest from the shank.</param>
/// <param name="GroundLevel">Linear brightness of the recess, share of full scale.</param>
/// <param name="FaceLevel">Linear brightness that four fifths of the steel in the window exceed.</param>
public sealed record CoarseSilhouette(ImmutableArray<PixelPoint> Points, int ApexIndex, double GroundLevel, double FaceLevel);
