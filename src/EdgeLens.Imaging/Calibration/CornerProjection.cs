using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;

namespace EdgeLens.Imaging.Calibration;

/// <summary>Projection of one card corner with its derivatives by the parameters of <see cref="CardGeometry"/>.</summary>
internal static class CornerProjection
{
    /// <summary>The side on which a marker's corner has white paper: (±1, ±1), or nothing for a board corner.</summary>
    private static Vector2 TowardsWhite(CornerKind kind) => kind switch
    {
        CornerKind.MarkerTopLeft => new(-1, -1),
        CornerKind.MarkerTopRight => new(1, -1),
        CornerKind.MarkerBottomRight => new(1, 1),
        CornerKind.MarkerBottomLeft => new(-1, 1),
        _ => new(0, 0),
    };

    /// <summary>Pixel of the corner; <paramref name="dx"/> and <paramref name="dy"/> receive the derivatives (chain rule, written out).</summary>
    public static PixelPoint Project(CardGeometry g, CardCorner corner, Span<double> dx, Span<double> dy)
    {
        Rotation3 r = g.CameraFromCard;
        double alongX = g.PrintScaleX * (corner.Design.XMm - g.Pivot.XMm), alongY = g.PrintScaleY * (corner.Design.YMm - g.Pivot.YMm);
        Vector2 white = TowardsWhite(corner.Kind);
        Vector3 fromX = alongX * r.X, fromY = alongY * r.Y, fromInk = white.X * r.X + white.Y * r.Y;
        Vector3 arm = fromX + fromY + g.InkSpreadMm * fromInk;
        Vector3 c = arm + g.PivotInCamera;

        CameraModel camera = g.Camera;
        double f = camera.FocalLengthPx, x = c.X / c.Z, y = c.Y / c.Z, s = 1 + camera.K1 * (x * x + y * y);
        // Derivatives of the pixel by the normalised coordinates.
        double xx = f * (s + 2 * camera.K1 * x * x), xy = 2 * f * camera.K1 * x * y, yy = f * (s + 2 * camera.K1 * y * y);

        dx[CardGeometry.LnFocal] = f * s * x;
        dy[CardGeometry.LnFocal] = f * s * y;
        dx[CardGeometry.K1] = f * (x * x + y * y) * x;
        dy[CardGeometry.K1] = f * (x * x + y * y) * y;
        (dx[CardGeometry.CentreX], dy[CardGeometry.CentreX]) = (1, 0);
        (dx[CardGeometry.CentreY], dy[CardGeometry.CentreY]) = (0, 1);
        Through(CardGeometry.LnPrintX, fromX, dx, dy);
        Through(CardGeometry.LnPrintY, fromY, dx, dy);
        Through(CardGeometry.Ink, fromInk, dx, dy);
        // A turn w moves the arm by w cross arm.
        Through(CardGeometry.Turn, new(0, -arm.Z, arm.Y), dx, dy);
        Through(CardGeometry.Turn + 1, new(arm.Z, 0, -arm.X), dx, dy);
        Through(CardGeometry.Turn + 2, new(-arm.Y, arm.X, 0), dx, dy);
        Through(CardGeometry.Shift, new(1, 0, 0), dx, dy);
        Through(CardGeometry.Shift + 1, new(0, 1, 0), dx, dy);
        Through(CardGeometry.Shift + 2, new(0, 0, 1), dx, dy);
        return new(f * s * x + camera.CentreXPx, f * s * y + camera.CentreYPx);

        void Through(int parameter, Vector3 d, Span<double> dx, Span<double> dy)
        {
            double nx = (d.X - x * d.Z) / c.Z, ny = (d.Y - y * d.Z) / c.Z;
            dx[parameter] = xx * nx + xy * ny;
            dy[parameter] = xy * nx + yy * ny;
        }
    }
}
