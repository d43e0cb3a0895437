using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Lines;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.SideView;

/// <summary>Where a bevel ends: how far behind its corner with the face it meets the back.</summary>
/// <remarks>
/// The long lines of face and back are those edges of the blade that stand out farthest: w, half its width, nearer to the camera or farther away than the middle, where the bevel's
/// contour lies. Seen from the side by vy both lie |vy| w outside the surfaces in the middle; moved inwards by that, they meet the contour at the bevel's two ends. The bevel's contour leads
/// on from tip to end as far as the bevel is plane.
/// </remarks>
internal static class BevelEnd
{
    // Blades are 2.5 to 5 mm wide (common practice), rectangular; a face view of the day knows better.
    private const double HalfWidthMm = 1.8, HalfWidthLimitMm = 0.62;

    // Blades taper by up to a tenth of the bevel's length (an elevator from 1.9 to 0.9 mm over its length), in the middle otherwise than at their long lines: rectangular.
    private static readonly double FormShare = Quadrature.FromLimits(0.1);

    /// <summary>Millimetres along the blade.</summary>
    /// <param name="lines">Face, back and bevel.</param>
    /// <param name="wedgeDeg">Between face and bevel.</param>
    /// <param name="vy">View direction across the face, over its part along the sight.</param>
    /// <param name="mmPerPx">At the blade.</param>
    /// <param name="faceView">Of the day; null where there is none.</param>
    public static Figure Of(BevelLine lines, Measured wedgeDeg, double vy, double mmPerPx, FaceMeasurement? faceView)
    {
        Measured half = HalfWidth(faceView);
        double beta = wedgeDeg.Value * Math.PI / 180, moved = Math.Abs(vy) * half.Value / mmPerPx;
        Stretch bevel = lines.Bevel.Line, face = lines.Face.Line, back = lines.Back.Line;
        if (Crossing(bevel, face, moved) is not { } from || Crossing(bevel, back, moved) is not { } to) return Figure.Missing("Bevel and back do not meet before the tip.");
        double end = (to - from) * mmPerPx * Math.Abs(bevel.Along.Dot(face.Along)), depth = end * Math.Tan(beta);
        // The lines of face and back lead on beyond where they were fitted, to below the bevel: as far as they are long, about.
        double lead = back.LengthPx * mmPerPx;
        double fits = Quadrature.Sum(lead * lines.Back.AngleSigmaRad, lead * lines.Face.AngleSigmaRad, mmPerPx * lines.Back.OffsetSigmaPx, mmPerPx * lines.Face.OffsetSigmaPx);
        double byView = 2 * half.Value * Quadrature.FromLimits(WedgeProjection.AlignmentLimitDeg) * Math.PI / 180, byWidth = 2 * Math.Abs(vy) * half.StandardUncertainty;
        double byAngle = depth / Math.Pow(Math.Sin(beta), 2) * wedgeDeg.StandardUncertainty * Math.PI / 180;
        return new Measured(end, Quadrature.Sum(Quadrature.Sum(fits, byView, byWidth) / Math.Tan(beta), byAngle, end * BladeScale.OnEdgeRelativeSigma, end * FormShare));
    }

    private static Measured HalfWidth(FaceMeasurement? faceView)
    {
        double[] widths = faceView is null ? [] : [.. faceView.Widths.Where(w => w.StationMm is > 1.4 and < 4.6).Select(w => w.WidthMm.Value / 2)];
        if (widths.Length == 0) return new(HalfWidthMm, Quadrature.FromLimits(HalfWidthLimitMm));
        return new(widths.Average(), Quadrature.FromLimits((widths.Max() - widths.Min()) / 2));
    }

    /// <summary>How far along the bevel's contour it crosses a long line that is moved inwards, pixels; null where it runs beside it.</summary>
    private static double? Crossing(Stretch bevel, Stretch line, double inwardsPx)
    {
        double closing = bevel.Along.Dot(line.Outward);
        if (Math.Abs(closing) < 0.1) return null;
        Vector2 gap = new(line.Start.X - inwardsPx * line.Outward.X - bevel.Start.X, line.Start.Y - inwardsPx * line.Outward.Y - bevel.Start.Y);
        return gap.Dot(line.Outward) / closing;
    }
}
