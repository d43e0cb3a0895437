using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;
using EdgeLens.Imaging.Silhouettes;
using EdgeLens.Measuring.ToeView;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.HeelSection;

/// <summary>Face angle and internal angles of a scaler from a toe view that is focused on the heel.</summary>
/// <remarks>
/// A scaler's tip is a point: the two corners that its face's line leads through, and lateral surfaces long enough for a line, stand at the heel, which is its widest section and so its
/// contour as seen along the blade. Six millimetres behind a focused tip they are blurred over a dozen pixels and tell nothing better than some two degrees; in focus each corner is where
/// two contours meet (docs/physics/angles.md).
/// </remarks>
internal static class HeelSectionMeasurer
{
    /// <summary>Measures.</summary>
    /// <param name="picture">The photograph.</param>
    /// <param name="summary">Its file.</param>
    /// <param name="calibration">From the card behind the blade.</param>
    /// <param name="region">The card's window.</param>
    /// <param name="shank">The terminal shank.</param>
    /// <param name="family">Scaler.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <param name="mmPerPx">At the heel.</param>
    /// <returns>The angles, or the refusals <c>corner-dark</c>, <c>heel-blurred</c>, <c>corner-hidden</c>.</returns>
    public static Outcome<AngleMeasurement> Measure(
        TonePicture picture, PhotographSummary summary, CardCalibration calibration, WindowRegion region, TerminalShank shank, InstrumentFamily family, Sharpening sharpening, double mmPerPx)
    {
        if (!Corner(-1).TryGet(out HeelCorner? left, out Refusal? refusal) || !Corner(1).TryGet(out HeelCorner? right, out refusal)) return refusal;
        double lengthPx = new Vector2(right.Place.X - left.Place.X, right.Place.Y - left.Place.Y).Length;
        FaceChord chord = new(left.Place, right.Place, Quadrature.Sum(left.SigmaPx, right.SigmaPx) / lengthPx);
        Measured offset = FaceToShank.OffsetDeg(calibration, chord, shank, FamilyTraits.Of(family));
        (Figure face, CuttingEdges? edges) = FaceToShank.Figures(offset, "The corners of the face are too uncertain. Focus on the heel, look along the blade, and take the photograph again.");
        Figure none = Figure.Missing("Luxators and elevators have it, and show it in a side view.");
        // The instrument's left edge is on the picture's right.
        (Figure onLeft, SectionProfile leftSection) = Side(right, left);
        (Figure onRight, SectionProfile rightSection) = Side(left, right);
        return new AngleMeasurement(
            summary, family, PhotographView.Toe, face, onLeft, onRight, edges, none, none, leftSection, rightSection,
            [
                new(LineRole.ShankAxis, shank.Top, shank.Bottom), new(LineRole.Face, chord.Left, chord.Right),
                new(LineRole.LeftLateral, right.Lateral.Line.Start, right.Lateral.Line.End), new(LineRole.RightLateral, left.Lateral.Line.Start, left.Lateral.Line.End),
            ]);

        Outcome<HeelCorner> Corner(int side) =>
            NeckEnd.Find(picture, region, shank, side, mmPerPx) is { } neck ? HeelCorner.Fit(picture, neck, mmPerPx, sharpening) : CornerRefusals.Dark(side);

        (Figure Angle, SectionProfile Section) Side(HeelCorner own, HeelCorner other)
        {
            Measured angle = InternalDeg(calibration, own, other, chord.TurnSigmaRad);
            SectionProfile section = SectionTracer.Below(picture, own.Lateral.Line, HeelCorner.FromMm / mmPerPx, angle.Value, sharpening, mmPerPx);
            return (angle.StandardUncertainty <= AngleLimits.GreatestUncertaintyDeg ? angle
                : Figure.Missing("The contour of this lateral surface is too faint to tell its angle. Let both panels shine on the blade's sides, and take the photograph again."), section);
        }
    }

    /// <summary>Between the chord of both corners and one lateral contour, in the card's plane; what the hand's alignment leaves of its foreshortening is below a tenth of a degree.</summary>
    private static Measured InternalDeg(CardCalibration calibration, HeelCorner own, HeelCorner other, double turnSigmaRad)
    {
        double angle = Math.Acos(Math.Clamp(CardDirection.Of(calibration, own.Place, other.Place).Dot(CardDirection.Of(calibration, own.Lateral.Line)), -1, 1));
        return new Measured(angle, Quadrature.Sum(own.Lateral.AngleSigmaRad, turnSigmaRad)).Scale(180 / Math.PI);
    }
}
