using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Imaging.Silhouettes;
using EdgeLens.Measuring.Views;
using OpenCvSharp;

namespace EdgeLens.Measuring.SideView;

/// <summary>Wedge angle of a luxator or elevator from a side view: blade on edge before the card's black window.</summary>
public static class SideViewMeasurer
{
    /// <summary>Measures.</summary>
    /// <param name="photograph">The picture, borrowed.</param>
    /// <param name="summary">Its file.</param>
    /// <param name="calibration">From the card behind the blade.</param>
    /// <param name="card">Which card.</param>
    /// <param name="family">Luxator or elevator.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <param name="faceView">Face view of the same working end on the same day, which shows how round the tip's edge is; null where there is none.</param>
    /// <returns>The angles, or the refusals <c>no-blade</c>, <c>blade-hidden</c>, <c>bevel-unseen</c>.</returns>
    public static Outcome<AngleMeasurement> Measure(
        Photograph photograph, PhotographSummary summary, CardCalibration calibration, CardDescription card, InstrumentFamily family, Sharpening sharpening, FaceMeasurement? faceView = null)
    {
        ArgumentNullException.ThrowIfNull(photograph);
        ArgumentNullException.ThrowIfNull(calibration);
        ArgumentNullException.ThrowIfNull(card);
        using WindowRegion? region = WindowRegion.Of(calibration, card, new Size(photograph.WidthPx, photograph.HeightPx));
        if (region is null) return ViewRefusals.WindowNotSeen;
        double mmPerPx = BladeScale.OnEdgeMmPerPx(calibration, card);
        TonePicture picture = TonePicture.Of(photograph.Grey);
        return BladeSides.Find(photograph.Grey, picture, region, mmPerPx, sharpening)
            .Then(sides => BevelLine.Find(picture, sides, mmPerPx, sharpening))
            .Then(bevel => Assemble(bevel, summary, calibration, family, mmPerPx, faceView));
    }

    private static Outcome<AngleMeasurement> Assemble(BevelLine bevel, PhotographSummary summary, CardCalibration calibration, InstrumentFamily family, double mmPerPx, FaceMeasurement? faceView)
    {
        Stretch face = bevel.Face.Line, slope = bevel.Bevel.Line;
        Vector2 z = CardDirection.Of(calibration, face), l = CardDirection.Of(calibration, slope);
        double seen = Math.Acos(Math.Clamp(-z.Dot(l), -1, 1));
        // y out of the face: away from where the bevel leads.
        Vector2 y = z.Perpendicular;
        if (y.Dot(l) > 0) y = -1 * y;
        Vector3 view = calibration.ViewDirection(calibration.ToPlane(slope.Start, 0), 0);
        double vy = (view.X * y.X + view.Y * y.Y) / -view.Z, vz = (view.X * z.X + view.Y * z.Y) / -view.Z;
        double fit = Quadrature.Sum(bevel.Bevel.AngleSigmaRad, bevel.Face.AngleSigmaRad);
        Measured wedge = WedgeProjection.Wedge(new Measured(seen, fit), vy, vz);
        Figure figure = wedge;
        if (bevel.Bevel.BlurAtLimit || wedge.StandardUncertainty > AngleLimits.GreatestUncertaintyDeg)
            figure = Figure.Missing("The bevel's contour is too faint against the black window. Move a light ahead of the tip, about 30° beside the blade's axis, and take the photograph again.");
        const string toe = "A side view does not show it.";
        return new AngleMeasurement(summary, family, PhotographView.Side, Figure.Missing(toe), Figure.Missing(toe), Figure.Missing(toe), null, figure,
            TipThicknessUm(figure, faceView),
            BevelSection(seen, slope, calibration), null, [new(LineRole.Face, face.Start, face.End), new(LineRole.Bevel, slope.Start, slope.End)])
        {
            BevelEndMm = figure.Measured is { } angle ? BevelEnd.Of(bevel, angle, vy, mmPerPx, faceView) : Figure.Missing("It follows from the bevel's line, which is not known well enough."),
        };
    }

    /// <summary>By what it is: the picture of the tip's arc covers the tip itself, seen from a few degrees above or below the face.</summary>
    private static Figure TipThicknessUm(Figure wedgeDeg, FaceMeasurement? faceView)
    {
        if (wedgeDeg.Measured is not { } wedge) return Figure.Missing("It follows from the wedge angle, which is not known.");
        Figure radius = WedgeTip.ApexRadiusUm(faceView);
        return radius.Measured is { } r ? WedgeTip.ThicknessUm(wedge, r) : radius;
    }

    /// <summary>The bevel as it was fitted, straight from the tip to 0.60 mm: corner, and the line's end.</summary>
    private static SectionProfile BevelSection(double wedgeRad, Stretch slope, CardCalibration calibration)
    {
        double mmPerPx = calibration.MmPerPx(calibration.ToPlane(slope.Start, BladeScale.OnEdgeBeforeCardMm), BladeScale.OnEdgeBeforeCardMm), length = 0.10 + slope.LengthPx * mmPerPx;
        return new([new(0, 0), new(length * Math.Cos(wedgeRad), length * Math.Sin(wedgeRad))]);
    }
}
