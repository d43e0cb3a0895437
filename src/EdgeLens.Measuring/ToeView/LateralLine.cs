using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.ToeView;

/// <summary>The contour of one lateral surface next to its corner, and the internal angle that it makes with the face.</summary>
/// <param name="Line">As fitted, leading from the corner down.</param>
/// <param name="InternalAngleDeg">With the uncertainty from both lines, pose and alignment.</param>
/// <param name="Section">Outline from the corner down as far as the contour is straight and in focus; null at the heel.</param>
internal sealed record LateralLine(Stretch Line, Measured InternalAngleDeg, SectionProfile? Section)
{
    private const double FromMm = 0.15, ToMm = 0.40, ShortToMm = 0.30;
    private const double NominalDeg = 75;
    private const double GreatestTurnDeg = 15;
    private const int SearchOffsetPx = 16;

    // Mean evidence of less than three standard deviations a block is what the best of some five hundred lines through noise reaches.
    private const double LeastScore = 3;

    // The blade's sides taper; where the camera sees a side at less than this beyond it, toe and heel show the same line.
    private const double AmbiguousRad = 0.02;
    private const double HeelMm = 4.8;

    /// <summary>What rulings next to the contour, a bowed surface and the lens leave out, degrees; measured on rendered photographs.</summary>
    public const double ModelSigmaDeg = 0.55;

    /// <summary>Measures one side.</summary>
    /// <param name="picture">The photograph.</param>
    /// <param name="edge">The face line.</param>
    /// <param name="side">1 for the lateral surface on the picture's right (the left one of the instrument), -1 for the other.</param>
    /// <param name="calibration">The card.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <returns>The line, or a refusal <c>lateral-hidden</c> or <c>lateral-unseen</c>.</returns>
    public static Outcome<LateralLine> Find(TonePicture picture, ToeEdge edge, int side, CardCalibration calibration, Sharpening sharpening)
    {
        double nominal = NominalDeg * Math.PI / 180, turned = -side * edge.ViewX + edge.ViewY / Math.Tan(nominal);
        bool atToe = turned > edge.Taper - AmbiguousRad;
        return atToe ? AtToe(picture, edge, side, calibration, sharpening) : AtHeel(picture, edge, side, calibration, sharpening);
    }

    /// <summary>The surface turns out of sight at the toe: its contour is a ruling there, in focus.</summary>
    private static Outcome<LateralLine> AtToe(TonePicture picture, ToeEdge edge, int side, CardCalibration calibration, Sharpening sharpening)
    {
        SharpLine seen = Seek(picture, edge, side, sharpening);
        if (!IsContour(seen, edge)) return Unseen;
        StraightEdge whole = FitOver(seen.Line, FromMm, ToMm), upper = FitOver(seen.Line, FromMm, ShortToMm);
        double turn = Math.Asin(Math.Clamp(whole.Line.Along.Cross(upper.Line.Along), -1, 1));
        // Small blades turn to the back before 0.40 mm; then the straight part counts.
        double scatter = Quadrature.Sum(whole.AngleSigmaRad, upper.AngleSigmaRad);
        StraightEdge chosen = Math.Abs(turn) > 2 * scatter + 0.005 ? upper : whole;
        return Result(edge, side, calibration, chosen, atToe: true).Then<LateralLine>(found => found with
        {
            Section = SectionTracer.Below(picture, chosen.Line, (FromMm - 0.02) / edge.MmPerPx, found.InternalAngleDeg.Value, sharpening, edge.MmPerPx),
        });

        StraightEdge FitOver(Stretch line, double from, double to)
        {
            double origin = (FromMm - 0.04) / edge.MmPerPx;
            Stretch part = Stretch.Between(line.At(from / edge.MmPerPx - origin, 0), line.At(to / edge.MmPerPx - origin, 0), line.At(line.LengthPx / 2, -50));
            return StraightEdgeFitter.Fit(picture, part, sharpening, 6, 6, 0.7, 2.5);
        }
    }

    /// <summary>The surface faces the camera: its contour is the heel's, out of focus, and can be told only from an even ground.</summary>
    private static Outcome<LateralLine> AtHeel(TonePicture picture, ToeEdge edge, int side, CardCalibration calibration, Sharpening sharpening)
    {
        double x = side * (edge.HalfWidthMm.Value + edge.Taper * HeelMm) + HeelMm * edge.ViewX, y = HeelMm * edge.ViewY;
        Stretch guess = Guess(edge, side, x, y, FromMm, ToMm);
        ContourLine? contour = ContourLine.Find(new LineStrip(picture, guess, 35, 60), 15, 0, Math.Tan(GreatestTurnDeg * Math.PI / 180));
        if (contour is null || contour.InlierShare < 0.8) return Hidden;
        StraightEdge fit = StraightEdgeFitter.Fit(picture, contour.Line.Moved(-2, 0), sharpening, 10, 12, 1.2, 6);
        return fit.BlurAtLimit || Bends(picture, fit, sharpening) ? Hidden : Result(edge, side, calibration, fit, atToe: false);
    }

    /// <summary>Plain enough, and not turned to the end of the range: there it is some other line, cut off by the range.</summary>
    private static bool IsContour(SharpLine seen, ToeEdge edge)
    {
        double angleDeg = Math.Acos(Math.Min(1, Math.Abs(seen.Line.Along.Dot(edge.Along)))) * 180 / Math.PI;
        return seen.Score >= LeastScore && Math.Abs(angleDeg - NominalDeg) < GreatestTurnDeg - 1 && seen.Line.Along.Dot(edge.Along.Perpendicular) > 0;
    }

    private static SharpLine Seek(TonePicture picture, ToeEdge edge, int side, Sharpening sharpening)
    {
        (double x, double y) = edge.Corner(side);
        Stretch guess = Guess(edge, side, x, y, FromMm - 0.04, ToMm - 0.06);
        return SharpLine.Find(new LineStrip(picture, guess, 34, 34), new SharpStep(1.1, sharpening, 4), new SharpStep(4, default, 10), GreatestTurnDeg, SearchOffsetPx);
    }

    /// <summary>
    /// Where the contour of the lateral surface, lengthened upwards, meets the cutting edge, and how usual an internal angle it makes (1 at 75°, falling
    /// as a normal law of 10°); null where it is not seen in focus.
    /// </summary>
    public static (PixelPoint Place, double Usual)? CornerOf(TonePicture picture, ToeEdge edge, int side, Sharpening sharpening)
    {
        if (!edge.Folds(side) || Seek(picture, edge, side, sharpening) is not { } seen || !IsContour(seen, edge)) return null;
        (double x, double y) = edge.Corner(side);
        PixelPoint corner = edge.At(x, y), from = seen.Line.Start;
        // Up the line to the corner's height over the face line.
        Vector2 down = edge.Along.Perpendicular;
        double back = ((corner.X - from.X) * down.X + (corner.Y - from.Y) * down.Y) / seen.Line.Along.Dot(down);
        double angleDeg = Math.Acos(Math.Clamp(-side * seen.Line.Along.Dot(edge.Along), -1, 1)) * 180 / Math.PI;
        return (seen.Line.At(back, 0), Math.Exp(-0.5 * Math.Pow((angleDeg - NominalDeg) / 10, 2)));
    }

    /// <summary>True where the two halves of a line lead different ways: the heel's outline on its way into the shank.</summary>
    private static bool Bends(TonePicture picture, StraightEdge fit, Sharpening sharpening)
    {
        Stretch line = fit.Line;
        double half = line.LengthPx / 2;
        StraightEdge upper = Half(0, half), lower = Half(half, line.LengthPx);
        double turn = Math.Abs(Math.Asin(Math.Clamp(upper.Line.Along.Cross(lower.Line.Along), -1, 1)));
        // A surface bowed by what counts as straight (1° over the stretch) turns its halves by half of that.
        return turn > 3 * Quadrature.Sum(upper.AngleSigmaRad, lower.AngleSigmaRad) + 0.02;

        StraightEdge Half(double from, double to) =>
            StraightEdgeFitter.Fit(picture, Stretch.Between(line.At(from, 0), line.At(to, 0), line.At(half, -100)), sharpening, 10, 12, 1.2, 6);
    }

    private static Stretch Guess(ToeEdge edge, int side, double x, double y, double from, double to)
    {
        (double s, double c) = Math.SinCos(NominalDeg * Math.PI / 180);
        return Stretch.Between(edge.At(x - side * c * from, y - s * from), edge.At(x - side * c * to, y - s * to), edge.At(0, y - s * (from + to) / 2));
    }

    private static Outcome<LateralLine> Result(ToeEdge edge, int side, CardCalibration calibration, StraightEdge fit, bool atToe)
    {
        Vector2 face = CardDirection.Of(calibration, edge.At(-0.3, 0), edge.At(0.3, 0)), lateral = CardDirection.Of(calibration, fit.Line);
        double seen = Math.Acos(Math.Clamp(-side * face.Dot(lateral), -1, 1));
        double align = Quadrature.FromLimits(FaceToShank.AlignmentLimitDeg) * Math.PI / 180;
        double value = Internal(seen, side * edge.ViewX, edge.ViewY, atToe);
        double byX = (Internal(seen, side * edge.ViewX + align, edge.ViewY, atToe) - Internal(seen, side * edge.ViewX - align, edge.ViewY, atToe)) / 2;
        double byY = (Internal(seen, side * edge.ViewX, edge.ViewY + align, atToe) - Internal(seen, side * edge.ViewX, edge.ViewY - align, atToe)) / 2;
        Measured angle = new Measured(value, Quadrature.Sum(fit.AngleSigmaRad, edge.TurnSigmaRad, byX, byY)).Scale(180 / Math.PI).WithAdded(ModelSigmaDeg);
        return angle.StandardUncertainty > AngleLimits.GreatestUncertaintyDeg || fit.BlurAtLimit ? (atToe ? Unseen : Hidden) : new LateralLine(fit.Line, angle, null);
    }

    /// <summary>
    /// Internal angle from the angle seen, radians. At the heel the section's own outline is seen, whose picture in a plane square to the blade is
    /// itself. At the toe it is the ruling at which the surface turns out of sight: sin φ = -v + vy cot β, seen along the view.
    /// </summary>
    private static double Internal(double seenRad, double viewOut, double viewUp, bool atToe)
    {
        if (!atToe) return seenRad;
        double beta = seenRad;
        for (int i = 0; i < 4; i++)
        {
            (double s, double c) = Math.SinCos(beta);
            double sine = Math.Clamp(viewUp * c / s - viewOut, 0, 0.9), cosine = Math.Sqrt(1 - sine * sine);
            beta += seenRad - Math.Atan2(s - viewUp * sine * c, c * (cosine - viewOut * sine));
        }
        return beta;
    }

    private static Refusal Hidden => new("lateral-hidden", "The camera looks onto this lateral surface; its outline is the heel's, which cannot be told from what lies behind it.",
        "Take another toe view with the camera moved a little to the other side, so that this edge stands clear against the dark.");

    private static Refusal Unseen => new("lateral-unseen", "The outline of this lateral surface is too faint or too blurred.",
        "Focus on the toe, let both panels shine on the blade's sides, and take the photograph again.");
}
