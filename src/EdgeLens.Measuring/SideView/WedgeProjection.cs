using EdgeLens.Geometry.Figures;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.SideView;

/// <summary>What a camera that is not square to the blade's side sees of a bevel of a given angle, and back.</summary>
/// <remarks>
/// Blade axes: z to the tip, y out of the face, x towards the camera; v = (1, vy, vz) points to the camera. The bevel round the tip arc is ruled:
/// at the place where the arc's normal is (sin φ, 0, cos φ) it has the normal sin β (sin φ, 0, cos φ) - cos β (0, 1, 0) and falls along
/// l = (-sin φ cos β, -sin β, -cos φ cos β). Its contour is the ruling whose normal is square to v: sin φ + vz cos φ = vy cot β, seen along v as
/// (ly - lx vy, lz - lx vz). docs/physics/angles.md.
/// </remarks>
internal static class WedgeProjection
{
    /// <summary>Angle seen between the contour and the face's plane, radians.</summary>
    public static double Seen(double wedgeRad, double vy, double vz)
    {
        double phi = ContourRad(wedgeRad, vy, vz);
        (double s, double c) = Math.SinCos(wedgeRad);
        (double sp, double cp) = Math.SinCos(phi);
        double lx = -sp * c, ly = -s, lz = -cp * c;
        return Math.Atan2(-(ly - lx * vy), -(lz - lx * vz));
    }

    /// <summary>Wedge angle from the angle seen.</summary>
    /// <param name="seenRad">From the fitted lines, with its standard uncertainty, radians.</param>
    /// <param name="vy">View direction over its x component.</param>
    /// <param name="vz">View direction over its x component.</param>
    /// <returns>Degrees; the uncertainty holds fit and alignment.</returns>
    public static Measured Wedge(Measured seenRad, double vy, double vz)
    {
        double align = AngleLimits.AlignmentSigmaRad, wedge = Invert(seenRad.Value, vy, vz);
        double byY = (Invert(seenRad.Value, vy + align, vz) - Invert(seenRad.Value, vy - align, vz)) / 2;
        double byZ = (Invert(seenRad.Value, vy, vz + align) - Invert(seenRad.Value, vy, vz - align)) / 2;
        return new Measured(wedge, Quadrature.Sum(seenRad.StandardUncertainty, byY, byZ)).Scale(180 / Math.PI);
    }

    private static double ContourRad(double wedgeRad, double vy, double vz)
    {
        double length = Math.Sqrt(1 + vz * vz);
        return Math.Asin(Math.Clamp(vy / Math.Tan(wedgeRad) / length, -1, 1)) - Math.Atan(vz);
    }

    private static double Invert(double seenRad, double vy, double vz)
    {
        // The correction is some tenths of a degree and hardly changes with the angle: three rounds leave less than 1e-6.
        double wedge = seenRad;
        for (int i = 0; i < 4; i++) wedge += seenRad - Seen(wedge, vy, vz);
        return wedge;
    }
}
