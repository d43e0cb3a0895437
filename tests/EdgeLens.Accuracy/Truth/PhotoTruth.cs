using System.Collections.Immutable;

namespace EdgeLens.Accuracy.Truth;

/// <summary><c>*.truth.json</c> beside a photograph, as far as the bench compares it.</summary>
/// <param name="Camera">The lens.</param>
/// <param name="CameraFromBlade">4 x 4, frame of the working end (x, y, z mm; face in y = 0, z from the heel) to the camera (x right, y down, z forward).</param>
/// <param name="WorkingEnd">Its shape.</param>
/// <param name="AgainstAsNew">Losses; null for the as-new inspection.</param>
public sealed record PhotoTruth(CameraTruth Camera, ImmutableArray<ImmutableArray<double>> CameraFromBlade, WorkingEndTruth WorkingEnd, DriftTruth? AgainstAsNew = null);

/// <summary>Pinhole with one radial term, x (1 + k1 r²) on normalised coordinates; the first pixel's centre is (0, 0).</summary>
public sealed record CameraTruth(double FPx, double CxPx, double CyPx, double K1);

/// <summary>Shape of the working end in the photograph.</summary>
/// <param name="ApexZMm">From the heel.</param>
/// <param name="AsNewLengthMm">z of the as-new apex: the origin of stations.</param>
/// <param name="StationsFromAsNewApexMm">Back from the as-new apex.</param>
/// <param name="WidthsMm">At the stations; 0 where the blade no longer reaches.</param>
/// <param name="ToeRadiusMm">Circle within 60° of the apex; 0 for a point.</param>
/// <param name="TipWidthMm">0.25 mm behind the apex of this photograph.</param>
/// <param name="OutlineXzMm">Silhouette, [x, z], a U from the heel's left over the apex to the heel's right.</param>
/// <param name="EdgeRadiusUm">[arc along the U in mm, radius of the rounding].</param>
/// <param name="ApexArcMm">Arc of the apex.</param>
/// <param name="Nicks">Gaps in the edges.</param>
/// <param name="TipArcRadiusMm">Luxators and elevators.</param>
/// <param name="FaceAngleDeg">Curettes and scalers.</param>
/// <param name="InternalAngleLeftDeg">Curettes and scalers.</param>
/// <param name="InternalAngleRightDeg">Curettes and scalers.</param>
/// <param name="WorkingEdge">Curettes and scalers: both, left or right, as the face is offset.</param>
/// <param name="WedgeAngleDeg">Luxators and elevators: at the very edge.</param>
/// <param name="SecondBevel">Luxators and elevators; length 0 or null where there is none.</param>
public sealed record WorkingEndTruth(
    double ApexZMm,
    double AsNewLengthMm,
    ImmutableArray<double> StationsFromAsNewApexMm,
    ImmutableArray<double> WidthsMm,
    double ToeRadiusMm,
    double TipWidthMm,
    ImmutableArray<ImmutableArray<double>> OutlineXzMm,
    ImmutableArray<ImmutableArray<double>> EdgeRadiusUm,
    double ApexArcMm,
    ImmutableArray<NickTruth> Nicks,
    double? TipArcRadiusMm = null,
    double? FaceAngleDeg = null,
    double? InternalAngleLeftDeg = null,
    double? InternalAngleRightDeg = null,
    string? WorkingEdge = null,
    double? WedgeAngleDeg = null,
    SecondBevelTruth? SecondBevel = null);

/// <summary>A second bevel.</summary>
/// <param name="LengthMm">Along its surface; 0 for none.</param>
/// <param name="EdgeDeg">Its angle with the face.</param>
/// <param name="PrimaryDeg">That of the bevel behind it.</param>
public sealed record SecondBevelTruth(double LengthMm, double EdgeDeg, double PrimaryDeg);

/// <summary>A gap in an edge.</summary>
/// <param name="Edge">left or right.</param>
/// <param name="ZMm">Of its deepest place, from the heel.</param>
/// <param name="DepthUm">Below the smooth edge.</param>
/// <param name="LengthMm">Along the edge.</param>
public sealed record NickTruth(string Edge, double ZMm, double DepthUm, double LengthMm);

/// <summary>Losses against as-new.</summary>
/// <param name="WidthLossUm">At the same stations.</param>
/// <param name="LengthLossUm">Of the apex along z.</param>
/// <param name="AreaLossPercent">Forward of 80 % of the as-new length.</param>
public sealed record DriftTruth(ImmutableArray<double> WidthLossUm, double LengthLossUm, double AreaLossPercent);
