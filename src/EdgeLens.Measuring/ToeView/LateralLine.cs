using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.ToeView;

/// <summary>The end, for the eye, of one lateral surface next to its corner (contour or rim of the mirrored window), and the internal angle that it tells.</summary>
/// <param name="Line">As fitted, leading from the corner down.</param>
/// <param name="InternalAngleDeg">With the uncertainty from the contour, pose and alignment, without that of the face line.</param>
/// <param name="Section">Outline from the corner down as far as the contour is straight and in focus.</param>
internal sealed record LateralLine(Stretch Line, Measured InternalAngleDeg, SectionProfile Section)
{
    // The definition's stretch is 0.15 to 0.40 mm of a surface that is plane from the rounding of its edge on, 60 µm below the face for a radius of 45 µm; small toes turn to the
    // back from 0.33 mm on, and a line over both parts leads up to 0.9° inwards of the surface.
    private const double FromMm = 0.08, ToMm = 0.33;
    private const double NominalDeg = 75;
    private const double GreatestTurnDeg = 15;
    private const int SearchOffsetPx = 16;

    // Nearer to the side than two of the mirror's own uncertainties (the lobe's 2°) the rim may lie out of sight.
    private const double LeastMirroredRad = 0.07;

    // Mean evidence of less than three standard deviations a block is what the best of some five hundred lines through noise reaches.
    private const double LeastScore = 3;

    /// <summary>What a bowed surface and the lens leave out at a contour, degrees; measured on rendered photographs.</summary>
    public const double ModelSigmaDeg = 0.7;

    /// <summary>
    /// What the unevenness of ground steel does to a rim in the mirror, degrees: normals that scatter by 1.3° from place to place (15 µm) move it by w sin ψ times that, 3 µm, at
    /// n = 17 places over a length of 0.25 mm: a direction is good to 3 µm / 0.25 mm √(12 / n).
    /// </summary>
    public const double RimSigmaDeg = 0.6;

    /// <summary>True where the surface ends in focus for the eye: where it turns out of sight at the toe, or mirrors the black window; else the camera sees it as far as the heel.</summary>
    /// <param name="edge">The toe's edge.</param>
    /// <param name="side">1 right in the picture, -1 left.</param>
    /// <param name="light">Where it ends.</param>
    public static bool EndsInFocus(ToeEdge edge, int side, EdgeOfLight light) => light.AzimuthRad > (light.Mirrored ? LeastMirroredRad : edge.SideSlope) || edge.Folds(side);

    /// <summary>Fits the end of a side that ends in focus.</summary>
    /// <param name="picture">The photograph.</param>
    /// <param name="edge">The toe's edge.</param>
    /// <param name="side">1 for the lateral surface on the picture's right (the left one of the instrument), -1 for the other.</param>
    /// <param name="light">Where the surface ends for the eye.</param>
    /// <param name="calibration">The card.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <returns>The line, its angle's uncertainty without that of the face line; null where it is not seen.</returns>
    public static LateralLine? Find(TonePicture picture, ToeEdge edge, int side, EdgeOfLight light, CardCalibration calibration, Sharpening sharpening)
    {
        if (!EndsInFocus(edge, side, light)) return null;
        if (Seek(picture, edge, side, light, sharpening) is not { } fit) return null;
        return fit.BlurAtLimit ? null : Result(picture, edge, side, light, calibration, fit, sharpening);
    }

    /// <summary>Plain enough, and not turned to the end of the range: there it is some other line, cut off by the range.</summary>
    private static bool IsContour(Stretch line, double score, ToeEdge edge)
    {
        double angleDeg = Math.Acos(Math.Min(1, Math.Abs(line.Along.Dot(edge.Along)))) * 180 / Math.PI;
        return score >= LeastScore && Math.Abs(angleDeg - NominalDeg) < GreatestTurnDeg - 1 && line.Along.Dot(edge.Along.Perpendicular) > 0;
    }

    /// <summary>The contour sought and then fitted, twice: what the search takes for outermost lies up to five pixels outside, more than one fit moves.</summary>
    private static StraightEdge? Seek(TonePicture picture, ToeEdge edge, int side, EdgeOfLight light, Sharpening sharpening)
    {
        SharpLine seen = Search(picture, edge, side, light, sharpening);
        if (!IsContour(seen.Line, seen.Score, edge)) return null;
        double origin = (FromMm - 0.04) / edge.MmPerPx;
        Stretch part = Stretch.Between(seen.Line.At(FromMm / edge.MmPerPx - origin, 0), seen.Line.At(ToMm / edge.MmPerPx - origin, 0), seen.Line.At(seen.Line.LengthPx / 2, -50));
        StraightEdge fit = Fit(picture, Fit(picture, part, sharpening).Line, sharpening);
        return IsContour(fit.Line, seen.Score, edge) ? fit : null;
    }

    private static StraightEdge Fit(TonePicture picture, Stretch stretch, Sharpening sharpening) => StraightEdgeFitter.Fit(picture, stretch, sharpening, 6, 6, 0.7, 2.5);

    private static SharpLine Search(TonePicture picture, ToeEdge edge, int side, EdgeOfLight light, Sharpening sharpening)
    {
        (double x, double y) = edge.OnEdge(side, light.AzimuthAt(0));
        Stretch guess = Guess(edge, side, x, y, FromMm - 0.04, ToMm);
        return SharpLine.Find(new LineStrip(picture, guess, 34, 34), new SharpStep(1.1, sharpening, 4), new SharpStep(4, default, 10), GreatestTurnDeg, SearchOffsetPx);
    }

    /// <summary>
    /// Where the contour of the lateral surface, lengthened upwards, meets the cutting edge, and how usual an internal angle it makes (1 at 75°, falling
    /// as a normal law of 10°); null where it is not seen in focus.
    /// </summary>
    public static (PixelPoint Place, double Usual)? CornerOf(TonePicture picture, ToeEdge edge, int side, EdgeOfLight light, Sharpening sharpening)
    {
        if (!EndsInFocus(edge, side, light) || Seek(picture, edge, side, light, sharpening) is not { } seen) return null;
        (double x, double y) = edge.OnEdge(side, light.AzimuthAt(0));
        PixelPoint corner = edge.At(x, y), from = seen.Line.Start;
        // Up the line to the corner's height over the face line.
        Vector2 down = edge.Along.Perpendicular;
        double back = ((corner.X - from.X) * down.X + (corner.Y - from.Y) * down.Y) / seen.Line.Along.Dot(down);
        double angleDeg = Math.Acos(Math.Clamp(-side * seen.Line.Along.Dot(edge.Along), -1, 1)) * 180 / Math.PI;
        return (seen.Line.At(back, 0), Math.Exp(-0.5 * Math.Pow((angleDeg - NominalDeg) / 10, 2)));
    }

    private static Stretch Guess(ToeEdge edge, int side, double x, double y, double from, double to)
    {
        (double s, double c) = Math.SinCos(NominalDeg * Math.PI / 180);
        return Stretch.Between(edge.At(x - side * c * from, y - s * from), edge.At(x - side * c * to, y - s * to), edge.At(0, y - s * (from + to) / 2));
    }

    private static LateralLine Result(TonePicture picture, ToeEdge edge, int side, EdgeOfLight light, CardCalibration calibration, StraightEdge fit, Sharpening sharpening)
    {
        Vector2 face = CardDirection.Of(calibration, edge.At(-0.3, 0), edge.At(0.3, 0)), lateral = CardDirection.Of(calibration, fit.Line);
        double seen = Math.Acos(Math.Clamp(-side * face.Dot(lateral), -1, 1));
        double align = AngleLimits.AlignmentSigmaRad;
        double value = Internal(seen, edge, side, light);
        double byX = Half(a => Internal(seen, edge with { ViewX = edge.ViewX + a }, side, light), align), byY = Half(a => Internal(seen, edge with { ViewY = edge.ViewY + a }, side, light), align);
        double byLight = Half(a => Internal(seen, edge, side, light with { AzimuthRad = light.AzimuthRad + a }), light.SigmaRad);
        // A bent end (a toe that turns to its back early, a rim that runs on along the window's lower border) shows as a difference between the whole line and its upper two thirds.
        Stretch upper = Stretch.Between(fit.Line.Start, fit.Line.At(fit.Line.LengthPx * 2 / 3, 0), fit.Line.At(fit.Line.LengthPx / 2, -50));
        double byBend = Fit(picture, upper, sharpening).Line.TurnRad(fit.Line);
        double byTurn = Half(a => Internal(seen, edge, side, light with { PerMm = light.PerMm * (1 + a) }), EdgeOfLight.TurnShare);
        Measured angle = new Measured(value, Quadrature.Sum(fit.AngleSigmaRad, byX, byY, byLight, byTurn, byBend)).Scale(180 / Math.PI).WithAdded(light.Mirrored ? RimSigmaDeg : ModelSigmaDeg);
        return new(fit.Line, angle, SectionTracer.Below(picture, fit.Line, (FromMm - 0.02) / edge.MmPerPx, angle.Value, sharpening, edge.MmPerPx));
    }

    private static double Half(Func<double, double> f, double step) => (f(step) - f(-step)) / 2;

    /// <summary>Internal angle from the angle seen, radians: that at which the surface's end, place by place, makes the line that is seen.</summary>
    private static double Internal(double seenRad, ToeEdge edge, int side, EdgeOfLight light)
    {
        double beta = seenRad;
        for (int i = 0; i < 6; i++) beta += seenRad - SeenRad(beta, edge, side, light);
        return beta;
    }

    /// <summary>
    /// Angle to the face line under which the end of the surface is seen: each of its places, s behind the apex, appears moved by s (vx, vy).
    /// </summary>
    internal static double SeenRad(double internalRad, ToeEdge edge, int side, EdgeOfLight light)
    {
        (double X, double Y) from = Place(FromMm), to = Place(ToMm);
        return Math.Atan2(from.Y - to.Y, from.X - to.X);

        (double X, double Y) Place(double depthMm)
        {
            double azimuth = light.Mirrored ? light.AzimuthAt(depthMm) : Math.Max(0, EdgeOfLight.ContourRad(edge, side, internalRad));
            (double x, double behind) = edge.Ruling(side, azimuth, depthMm / Math.Tan(internalRad));
            return (side * (x + behind * edge.ViewX), behind * edge.ViewY - depthMm);
        }
    }
}
