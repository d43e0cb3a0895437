using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Calibration;

namespace EdgeLens.Measuring.ToeView;

/// <summary>How the camera looks at the toe, and where in the picture the toe is to be expected, from the card's pose and the neck of the shank.</summary>
/// <param name="Expected">Middle of the toe's cutting edge, pixels, within some 0.4 mm.</param>
/// <param name="CardXInPicture">Unit direction of the card's x axis in the picture.</param>
/// <param name="ViewX">Direction to the camera over its part along the card's normal: towards the card's right.</param>
/// <param name="ViewY">The same, upwards.</param>
/// <param name="MmPerPx">At the toe.</param>
internal sealed record ToeOutlook(PixelPoint Expected, Vector2 CardXInPicture, double ViewX, double ViewY, double MmPerPx)
{
    // Common forms: the toe stands 5 to 7 mm before the shank's axis, 0.9 mm below the neck as seen along the blade.
    private const double BladeMm = 6;
    private const double BelowNeckMm = 0.88;

    /// <summary>Looks from the neck along the blade.</summary>
    public static ToeOutlook From(CardCalibration calibration, TerminalShank shank, double heightOverCardMm, double mmPerPx)
    {
        CardPoint foot = calibration.ToPlane(shank.Neck, heightOverCardMm);
        Vector2 down = new Vector2(shank.Bottom.X - shank.Top.X, shank.Bottom.Y - shank.Top.Y).Unit;
        // Towards the camera by a blade's length, square to the card.
        PixelPoint before = calibration.Project(foot, heightOverCardMm + BladeMm);
        PixelPoint expected = new(before.X + down.X * BelowNeckMm / mmPerPx, before.Y + down.Y * BelowNeckMm / mmPerPx);
        CardPoint toe = calibration.ToPlane(expected, 0);
        Vector3 view = calibration.ViewDirection(toe, 0);
        PixelPoint right = calibration.Project(new(toe.XMm + 1, toe.YMm), 0);
        Vector2 x = new Vector2(right.X - expected.X, right.Y - expected.Y).Unit;
        return new(expected, x, view.X / -view.Z, -view.Y / -view.Z, mmPerPx);
    }

    /// <summary>View direction in the frame of a face line: along it (to the right) and out of the face (up).</summary>
    /// <param name="along">Unit direction of the line in the picture, pointing right.</param>
    public (double Vx, double Vy) InFrameOf(Vector2 along)
    {
        // Angle of the line against the card's x axis, anticlockwise; picture y points down.
        double c = along.Dot(CardXInPicture), s = along.Cross(CardXInPicture);
        return (c * ViewX + s * ViewY, -s * ViewX + c * ViewY);
    }
}
