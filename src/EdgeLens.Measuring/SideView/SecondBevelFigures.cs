using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Lines;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.SideView;

/// <summary>A second bevel's figures from the bend that was told.</summary>
internal static class SecondBevelFigures
{
    /// <summary>Derives them.</summary>
    /// <param name="bend">In the bevel's contour.</param>
    /// <param name="bevelDeg">Wedge angle of the bevel behind it.</param>
    /// <param name="edgeDeg">Wedge angle of the part before it.</param>
    /// <param name="face">Long line of the face.</param>
    /// <param name="middle">Where the face lies.</param>
    /// <param name="mmPerPx">At the blade.</param>
    /// <param name="toldFromMm">From which length on a second bevel is told.</param>
    public static SecondBevel Of(EdgeBend bend, Measured bevelDeg, Measured edgeDeg, StraightEdge face, BladeMiddle middle, double mmPerPx, double? toldFromMm)
    {
        Stretch before = bend.Before;
        // Before.Start lies behind the corner: the crossing is a negative distance.
        double toCorner = BevelEnd.Crossing(before, face.Line, middle.FaceInwardsMm.Value / mmPerPx) ?? 0, length = (before.LengthPx - toCorner) * mmPerPx;
        double lead = face.Line.LengthPx * mmPerPx * face.AngleSigmaRad, closing = Math.Sin(edgeDeg.Value * Math.PI / 180);
        double sigma = Quadrature.Sum(bend.PlacePx.StandardUncertainty * mmPerPx, Quadrature.Sum(middle.FaceInwardsMm.StandardUncertainty, lead, face.OffsetSigmaPx * mmPerPx) / closing, length * BladeScale.OnEdgeRelativeSigma);
        // Face line, view and alignment are common to both angles: their difference is as good as the fit of the turn.
        Measured steeper = new(edgeDeg.Value - bevelDeg.Value, bend.TurnRad.StandardUncertainty * 180 / Math.PI);
        return new(true, new Measured(length, sigma), steeper, edgeDeg, toldFromMm);
    }
}
