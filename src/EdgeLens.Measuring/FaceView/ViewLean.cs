using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;

namespace EdgeLens.Measuring.FaceView;

/// <summary>From where a place of the face is looked at.</summary>
internal static class ViewLean
{
    /// <summary>Angle of the line of sight from the face's normal, components along the picture's axes, positive where the camera stands; degrees.</summary>
    /// <remarks>
    /// A place raised by 1 mm towards the camera is seen displaced away from the camera's side by the tangent of that angle, so that the calibration's own
    /// projection gives it in the picture's axes.
    /// </remarks>
    public static Vector2 Degrees(CardCalibration calibration, PixelPoint pixel, double heightMm)
    {
        CardPoint foot = calibration.ToPlane(pixel, heightMm);
        PixelPoint raised = calibration.Project(foot, heightMm + 1);
        double mmPerPx = calibration.MmPerPx(foot, heightMm);
        return new(-Deg(Math.Atan((raised.X - pixel.X) * mmPerPx)), -Deg(Math.Atan((raised.Y - pixel.Y) * mmPerPx)));
    }

    private static double Deg(double radians) => radians * 180 / Math.PI;
}
