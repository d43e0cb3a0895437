using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
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
            .Then(bevel => Assemble(picture, sharpening, bevel, summary, calibration, family, mmPerPx, faceView));
    }

    private static Outcome<AngleMeasurement> Assemble(
        TonePicture picture, Sharpening sharpening, BevelLine found, PhotographSummary summary, CardCalibration calibration, InstrumentFamily family, double mmPerPx, FaceMeasurement? faceView)
    {
        SideAxes axes = SideAxes.Of(calibration, found.Face.Line, found.Bevel.Line);
        BladeMiddle middle = BladeMiddle.Of(picture, found.Face.Line, found.Back.Line, axes.Vy, mmPerPx, faceView);
        BevelBend bend = BevelBend.Seek(picture, found, middle, mmPerPx, sharpening, SecondBevel.ReferenceDeg * Math.PI / 180);
        // Where a bend is told the bevel is what lies behind it: a line over both parts is neither's.
        BevelLine bevel = bend.Told is { } told ? found with { Bevel = found.Bevel with { Line = told.Behind, AngleSigmaRad = told.BehindSigmaRad } } : found;
        Stretch face = bevel.Face.Line, slope = bevel.Bevel.Line;
        Measured wedge = Angle(slope, bevel.Bevel.AngleSigmaRad);
        Figure figure = wedge;
        if (bevel.Bevel.BlurAtLimit || wedge.StandardUncertainty > AngleLimits.GreatestUncertaintyDeg)
            figure = Figure.Missing("The bevel's contour is too faint against the black window. Move a light ahead of the tip, about 30° beside the blade's axis, and take the photograph again.");
        SecondBevel second = bend.Told is { } two && figure.Measured is not null
            ? SecondBevelFigures.Of(two, wedge, Angle(two.Before, two.BeforeSigmaRad), bevel.Face, middle, mmPerPx, bend.ToldFromMm)
            : SecondBevel.Not(bend.WhyNot ?? "It follows from the bevel's line, which is not known well enough.", bend.IsStraight ? false : null, bend.ToldFromMm);
        const string toe = "A side view does not show it.";
        FittedLine faceLine = new(LineRole.Face, face.Start, face.End);
        ImmutableArray<FittedLine> drawn = bend.Told is { Before: var edge } ? [faceLine, new(LineRole.Bevel, edge.End, slope.End), new(LineRole.SecondBevel, edge.Start, edge.End)] : [faceLine, new(LineRole.Bevel, slope.Start, slope.End)];
        return new AngleMeasurement(summary, family, PhotographView.Side, Figure.Missing(toe), Figure.Missing(toe), Figure.Missing(toe), null, figure,
            TipThicknessUm(second.EdgeAngleDeg.Measured is null ? figure : second.EdgeAngleDeg, faceView, 1000 * bend.TipRadiusBelowMm),
            BevelSection(axes.SeenRad(calibration, slope), slope, mmPerPx, second), null, drawn)
        {
            BevelEndMm = figure.Measured is { } angle ? BevelEnd.Of(bevel, angle, middle, mmPerPx, second) : Figure.Missing("It follows from the bevel's line, which is not known well enough."),
            SecondBevel = second,
            TipRadiusBelowUm = figure.Measured is null ? null : 1000 * bend.TipRadiusBelowMm,
        };

        Measured Angle(Stretch line, double sigmaRad) => WedgeProjection.Wedge(new(axes.SeenRad(calibration, line), Quadrature.Sum(sigmaRad, found.Face.AngleSigmaRad)), axes.Vy, axes.Vz);
    }

    /// <summary>By what it is: the picture of the tip's arc covers the tip itself, seen from a few degrees above or below the face.</summary>
    private static Figure TipThicknessUm(Figure wedgeDeg, FaceMeasurement? faceView, double? radiusBelowUm)
    {
        if (wedgeDeg.Measured is not { } wedge) return Figure.Missing("It follows from the wedge angle, which is not known.");
        Figure radius = WedgeTip.ApexRadiusUm(faceView);
        if (radius.Measured is { } r) return WedgeTip.ThicknessUm(wedge, r);
        return radiusBelowUm is { } greatest
            ? Figure.Missing(FormattableString.Invariant($"{radius.WhyMissing} It is below {Math.Ceiling(WedgeTip.ThicknessUm(wedge, new(greatest, 0)).Value):0} µm, since a tip rounder than {greatest:0} µm would have been seen from the side."))
            : radius;
    }

    /// <summary>The bevel as it was fitted, straight from the tip to the line's end; with the second bevel before it where there is one.</summary>
    private static SectionProfile BevelSection(double wedgeRad, Stretch slope, double mmPerPx, SecondBevel second)
    {
        double length = 0.10 + slope.LengthPx * mmPerPx;
        if (second.LengthMm.Measured is not { } two || second.EdgeAngleDeg.Measured is not { } edge) return new([new(0, 0), At(wedgeRad, length)]);
        SectionPoint bend = At(edge.Value * Math.PI / 180, two.Value), rest = At(wedgeRad, Math.Max(0.01, length - two.Value));
        return new([new(0, 0), bend, new(bend.InwardMm + rest.InwardMm, bend.DepthMm + rest.DepthMm)]);

        static SectionPoint At(double rad, double mm) => new(mm * Math.Cos(rad), mm * Math.Sin(rad));
    }
}
