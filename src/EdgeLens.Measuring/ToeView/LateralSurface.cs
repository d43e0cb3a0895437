using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.ToeView;

/// <summary>One lateral surface at the toe: its internal angle from the light on it and, where it turns out of sight there, from its contour.</summary>
/// <param name="Line">For drawing: the contour, or where there is none the surface's line at the corner.</param>
/// <param name="InternalAngleDeg">With all its uncertainty.</param>
/// <param name="Section">Outline from the corner down.</param>
internal sealed record LateralSurface(Stretch Line, Measured InternalAngleDeg, SectionProfile Section)
{
    private const double Degree = Math.PI / 180;

    // As far down as the light on the surface is used.
    private const double DepthMm = 0.29;

    /// <summary>
    /// What the model of the toe leaves out (its plan is not quite half a circle; the unevenness of ground steel bends lines of equal brightness), degrees: rms over 16 sides
    /// of rendered toes with true place, width and direction put in.
    /// </summary>
    public const double FormSigmaDeg = 0.62;

    /// <summary>Measures one side.</summary>
    /// <param name="picture">The photograph.</param>
    /// <param name="edge">The toe's edge.</param>
    /// <param name="lightRad">By <see cref="ToeLight"/>; null where there is none.</param>
    /// <param name="side">1 for the surface on the picture's right (the left one of the instrument), -1 for the other.</param>
    /// <param name="end">Where the surface ends for the eye.</param>
    /// <param name="calibration">The card.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <returns>The surface, or the refusal <c>lateral-unseen</c>.</returns>
    public static Outcome<LateralSurface> Measure(TonePicture picture, ToeEdge edge, Measured? lightRad, int side, EdgeOfLight end, CardCalibration calibration, Sharpening sharpening)
    {
        LateralLine? contour = edge.EndsAgree ? LateralLine.Find(picture, edge, side, end, calibration, sharpening) : null;
        Measured? light = lightRad is { } rad ? new Measured(rad.Value + Foreshortening(edge, side, rad.Value, calibration), rad.StandardUncertainty).Scale(1 / Degree).WithAdded(FormSigmaDeg) : null;
        Measured[] estimates = [.. new[] { contour?.InternalAngleDeg, light }.OfType<Measured>()];
        if (estimates.Length == 0) return Unseen(null);
        Measured own = Mean(estimates), angle = own.WithAdded(edge.TurnSigmaRad / Degree);
        if (angle.StandardUncertainty > AngleLimits.GreatestUncertaintyDeg) return Unseen(angle);
        (double s, double c) = Math.SinCos(angle.Value * Degree);
        (double x, double y) = edge.Corner(side);
        Stretch drawn = contour?.Line ?? Stretch.Between(edge.At(x - side * 0.1 * c, y - 0.1 * s), edge.At(x - side * DepthMm * c / s, y - DepthMm), edge.At(0, y - DepthMm));
        return new LateralSurface(drawn, angle, contour?.Section ?? new([new(0, 0), new(DepthMm * c / s, DepthMm)]));
    }

    /// <summary>
    /// Mean by inverse variances. Contour and light share the face line, the corner and the view, so the mean is no surer than they are: the uncertainty is the weighted
    /// mean of theirs (full correlation), and where they differ by more than they state, as great as that difference asks (Birge's ratio).
    /// </summary>
    private static Measured Mean(Measured[] estimates)
    {
        double weights = estimates.Sum(e => 1 / Square(e.StandardUncertainty)), value = estimates.Sum(e => e.Value / Square(e.StandardUncertainty)) / weights;
        double birge = estimates.Length < 2 ? 1 : Math.Sqrt(Math.Max(1, estimates.Sum(e => Square((e.Value - value) / e.StandardUncertainty)) / (estimates.Length - 1)));
        return new(value, birge * estimates.Sum(e => 1 / e.StandardUncertainty) / weights);
    }

    /// <summary>The card's plane less the picture's: what tilt and lens do to the angle between the two lines at the corner.</summary>
    private static double Foreshortening(ToeEdge edge, int side, double internalRad, CardCalibration calibration)
    {
        (double s, double c) = Math.SinCos(internalRad);
        (double x, double y) = edge.Corner(side);
        Vector2 face = CardDirection.Of(calibration, edge.At(-0.3, 0), edge.At(0.3, 0));
        Vector2 lateral = CardDirection.Of(calibration, edge.At(x, y), edge.At(x - side * 0.3 * c, y - 0.3 * s));
        return Math.Acos(Math.Clamp(-side * face.Dot(lateral), -1, 1)) - internalRad;
    }

    private static Refusal Unseen(Measured? angle) => new("lateral-unseen", "Light and outline of this lateral surface are too faint, too blurred or too even to tell its angle.",
        "Focus on the toe, let both panels shine on the blade's sides, and take the photograph again.", angle?.StandardUncertainty, angle is null ? null : AngleLimits.GreatestUncertaintyDeg, angle is null ? null : "°");

    private static double Square(double v) => v * v;
}
