using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.ToeView;

/// <summary>The angle between face and terminal shank in space from their two lines in the picture.</summary>
/// <remarks>
/// A line in the picture and the camera's centre span a plane that holds the real line. Blade axes: z square to the card towards the camera (the blade is
/// laid so), x square to z in the face line's plane, y = z × x. The shank u = (sin t sin λ, cos t sin λ, cos λ) leans by λ from z, known from its make, and
/// lies in its own plane with normal n: a sin t + b cos t = -c cot λ, (a, b, c) being n in blade axes. t is the offset of the face, 90° - |t| the face angle.
/// </remarks>
internal static class FaceToShank
{
    /// <summary>From this offset on the face counts as offset: half of the way between 0° and the least offset of the trade, 10° of 20°.</summary>
    public const double OffsetLimitDeg = 10;

    /// <summary>Offset t of the face, positive where the shank leans to the picture's right of the face's normal; degrees with standard uncertainty.</summary>
    /// <exception cref="ArgumentException">The family's shank does not lean: it has no face angle.</exception>
    public static Measured OffsetDeg(CardCalibration calibration, FaceChord face, TerminalShank shank, FamilyTraits family)
    {
        double leanDeg = family.ShankLeanDeg ?? throw new ArgumentException($"A {family.Title} has no face angle.", nameof(family));
        const double degree = Math.PI / 180;
        double lean = Quadrature.FromLimits(family.ShankLeanLimitDeg);
        double value = Solve(calibration, face, shank, leanDeg, 0, 0);
        double byLean = Half(l => Solve(calibration, face, shank, leanDeg + l * lean, 0, 0));
        double byX = Half(a => Solve(calibration, face, shank, leanDeg, a * AngleLimits.AlignmentSigmaRad, 0));
        double byY = Half(a => Solve(calibration, face, shank, leanDeg, 0, a * AngleLimits.AlignmentSigmaRad));
        CardTilt tilt = calibration.Tilt;
        double pose = Math.Tan(leanDeg * degree) * Quadrature.Sum(tilt.XDeg.StandardUncertainty, tilt.YDeg.StandardUncertainty) / Math.Sqrt(2);
        return new Measured(value, Quadrature.Sum(byLean, byX, byY, pose, face.TurnSigmaRad / degree, TerminalShank.AxisSigmaDeg));
    }

    /// <summary>
    /// Face angle from the offset: 90° less its size. Scatter alone gives a face that is square to the shank an offset, of either sign, so that the size of the
    /// measured one is too great: the square of the true one is that of the measured one less its variance (method of moments), not below 0.
    /// </summary>
    internal static Measured FaceAngleDeg(Measured offsetDeg) =>
        new(90 - Math.Sqrt(Math.Max(0, offsetDeg.Value * offsetDeg.Value - offsetDeg.StandardUncertainty * offsetDeg.StandardUncertainty)), offsetDeg.StandardUncertainty);

    /// <summary>Face angle and cutting edges that an offset tells; missing and null where it is too uncertain.</summary>
    /// <param name="offsetDeg">Of the face from the shank.</param>
    /// <param name="missing">Why it is missing then, and what to do.</param>
    public static (Figure FaceAngleDeg, CuttingEdges? Edges) Figures(Measured offsetDeg, string missing)
    {
        if (offsetDeg.StandardUncertainty > AngleLimits.GreatestUncertaintyDeg) return (Figure.Missing(missing), null);
        return (FaceAngleDeg(offsetDeg), Math.Abs(offsetDeg.Value) < OffsetLimitDeg ? CuttingEdges.Both : offsetDeg.Value > 0 ? CuttingEdges.Right : CuttingEdges.Left);
    }

    private static double Half(Func<double, double> f) => (f(1) - f(-1)) / 2;

    private static double Solve(CardCalibration calibration, FaceChord face, TerminalShank shank, double leanDeg, double turnX, double turnY) =>
        OffsetDeg(Plane(calibration, face.Left, face.Right), Plane(calibration, shank.Bottom, shank.Top), new Vector3(turnX, turnY, 1).Unit, leanDeg);

    /// <summary>Offset of the face from the planes that camera and lines span; axes: card's right, up, towards the camera.</summary>
    /// <param name="face">Normal of the face line's plane.</param>
    /// <param name="axis">Normal of the shank axis' plane.</param>
    /// <param name="z">The blade's axis, unit.</param>
    /// <param name="leanDeg">Of the shank from the face's normal.</param>
    internal static double OffsetDeg(Vector3 face, Vector3 axis, Vector3 z, double leanDeg)
    {
        Vector3 x = z.Cross(face).Unit;
        if (x.X < 0) x = -1 * x;
        Vector3 y = z.Cross(x);
        double a = axis.Dot(x), b = axis.Dot(y), c = axis.Dot(z), lambda = (90 + leanDeg) * Math.PI / 180;
        double length = Math.Sqrt(a * a + b * b), middle = Math.Atan2(a, b), spread = Math.Acos(Math.Clamp(-c / (Math.Tan(lambda) * length), -1, 1));
        double first = Math.IEEERemainder(middle + spread, 2 * Math.PI), second = Math.IEEERemainder(middle - spread, 2 * Math.PI);
        return (Math.Abs(first) < Math.Abs(second) ? first : second) * 180 / Math.PI;
    }

    /// <summary>Normal of the plane through the camera and a line in the picture; axes: card's right, up, towards the camera.</summary>
    private static Vector3 Plane(CardCalibration calibration, PixelPoint from, PixelPoint to) => Ray(calibration, from).Cross(Ray(calibration, to)).Unit;

    private static Vector3 Ray(CardCalibration calibration, PixelPoint p)
    {
        Vector3 v = calibration.ViewDirection(calibration.ToPlane(p, 0), 0);
        return new(-v.X, v.Y, v.Z);
    }
}
