using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Lines;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.SideView;

/// <summary>Where a bevel ends: how far behind its corner with the face it meets the back.</summary>
/// <remarks>
/// The long lines of face and back, moved to where both surfaces lie in the middle (<see cref="BladeMiddle"/>), meet the bevel's contour at its two ends. The contour leads on from tip to end as
/// far as the bevel is plane. A second bevel next to the edge brings the corner with the face nearer to the bevel's end.
/// </remarks>
internal static class BevelEnd
{
    // Blades taper by up to a tenth of the bevel's length (an elevator from 1.9 to 0.9 mm over its length), in the middle otherwise than at their long lines: rectangular.
    private static readonly double FormShare = Quadrature.FromLimits(0.1);

    /// <summary>Millimetres along the blade.</summary>
    /// <param name="lines">Face, back and bevel.</param>
    /// <param name="wedgeDeg">Between face and bevel.</param>
    /// <param name="middle">Where face and back lie.</param>
    /// <param name="mmPerPx">At the blade.</param>
    /// <param name="second">A second bevel, where one is told.</param>
    public static Figure Of(BevelLine lines, Measured wedgeDeg, BladeMiddle middle, double mmPerPx, SecondBevel? second = null)
    {
        double beta = wedgeDeg.Value * Math.PI / 180;
        Stretch bevel = lines.Bevel.Line, face = lines.Face.Line, back = lines.Back.Line;
        if (Crossing(bevel, face, middle.FaceInwardsMm.Value / mmPerPx) is not { } from || Crossing(bevel, back, middle.BackInwardsMm.Value / mmPerPx) is not { } to) return Figure.Missing("Bevel and back do not meet before the tip.");
        double end = (to - from) * mmPerPx * Math.Abs(bevel.Along.Dot(face.Along)), depth = end * Math.Tan(beta);
        // The lines of face and back lead on beyond where they were fitted, to below the bevel: as far as they are long, about.
        double lead = back.LengthPx * mmPerPx;
        double fits = Quadrature.Sum(lead * lines.Back.AngleSigmaRad, lead * lines.Face.AngleSigmaRad, mmPerPx * lines.Back.OffsetSigmaPx, mmPerPx * lines.Face.OffsetSigmaPx);
        // Both lines are off by the same view and width.
        double byView = middle.FaceInwardsMm.StandardUncertainty + middle.BackInwardsMm.StandardUncertainty;
        double byAngle = depth / Math.Pow(Math.Sin(beta), 2) * wedgeDeg.StandardUncertainty * Math.PI / 180;
        Measured ahead = Ahead(second, beta);
        end -= ahead.Value;
        return new Measured(end, Quadrature.Sum(Quadrature.Sum(fits, byView) / Math.Tan(beta), byAngle, ahead.StandardUncertainty, end * BladeScale.OnEdgeRelativeSigma, end * FormShare));
    }

    /// <summary>How far ahead of its real corner with the face a blade with a second bevel would reach, were the bevel straight: L (sin β₂ / tan β - cos β₂).</summary>
    private static Measured Ahead(SecondBevel? second, double beta)
    {
        if (second?.LengthMm.Measured is not { } length || second.EdgeAngleDeg.Measured is not { } edge) return new(0, 0);
        (double sin, double cos) = Math.SinCos(edge.Value * Math.PI / 180);
        return length.Scale(Math.Max(0, sin / Math.Tan(beta) - cos));
    }

    /// <summary>How far along the bevel's contour it crosses a long line that is moved inwards, pixels; null where it runs beside it.</summary>
    public static double? Crossing(Stretch bevel, Stretch line, double inwardsPx)
    {
        // A line that closes by less than 6° is met nowhere in particular.
        return Math.Abs(bevel.Along.Dot(line.Outward)) < 0.1 ? null : bevel.CrossingPx(line with { Start = line.At(0, -inwardsPx) });
    }
}
