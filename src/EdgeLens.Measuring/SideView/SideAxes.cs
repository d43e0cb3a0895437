using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Lines;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.SideView;

/// <summary>From where the camera looks at a blade on edge, in the blade's axes: z to the tip, y out of the face.</summary>
/// <param name="Towards">z on the card.</param>
/// <param name="Vy">View direction along y over its part along the sight.</param>
/// <param name="Vz">Likewise along z.</param>
internal sealed record SideAxes(Vector2 Towards, double Vy, double Vz)
{
    /// <summary>From the long line of the face and the bevel's line.</summary>
    public static SideAxes Of(CardCalibration calibration, Stretch face, Stretch bevel)
    {
        Vector2 z = CardDirection.Of(calibration, face), l = CardDirection.Of(calibration, bevel);
        // y out of the face: away from where the bevel leads.
        Vector2 y = z.Perpendicular;
        if (y.Dot(l) > 0) y = -1 * y;
        Vector3 view = calibration.ViewDirection(calibration.ToPlane(bevel.Start, 0), 0);
        return new(z, (view.X * y.X + view.Y * y.Y) / -view.Z, (view.X * z.X + view.Y * z.Y) / -view.Z);
    }

    /// <summary>Angle that is seen between face and a line of the bevel, radians.</summary>
    public double SeenRad(CardCalibration calibration, Stretch line) => Math.Acos(Math.Clamp(-Towards.Dot(CardDirection.Of(calibration, line)), -1, 1));
}
