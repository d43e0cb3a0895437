using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Imaging.Calibration;

/// <summary>Camera, print and pose of one photograph: the parameters that <see cref="CardBundle"/> fits, and the mapping that they make.</summary>
/// <param name="Camera">Lens.</param>
/// <param name="PrintScaleX">Printed over nominal along x.</param>
/// <param name="PrintScaleY">Printed over nominal along y.</param>
/// <param name="InkSpreadMm">How far black has grown over white at every border.</param>
/// <param name="CameraFromCard">Turns card axes (x right, y down, z into the card) into the camera's (x right, y down, z forward).</param>
/// <param name="PivotInCamera">Where the card's <paramref name="Pivot"/> is in the camera's frame, mm.</param>
/// <param name="Pivot">The middle of what was seen of the card. Turning about it leaves position and tilt almost uncorrelated.</param>
internal sealed record CardGeometry(
    CameraModel Camera, double PrintScaleX, double PrintScaleY, double InkSpreadMm, Rotation3 CameraFromCard, Vector3 PivotInCamera, DesignPoint Pivot)
{
    /// <summary>Focal length (logarithm), k1, principal point x and y (px), print scale x and y (logarithms), ink spread (mm).</summary>
    public const int SharedCount = 7;

    /// <summary>Turn about the camera's axes (rad), then shift of the pivot along them (mm).</summary>
    public const int PoseCount = 6;

    /// <summary>All parameters of one photograph, in this order.</summary>
    public const int ParameterCount = SharedCount + PoseCount;

    public const int LnFocal = 0, K1 = 1, CentreX = 2, CentreY = 3, LnPrintX = 4, LnPrintY = 5, Ink = 6, Turn = 7, Shift = 10;

    public CardPoint Printed(DesignPoint p) => new(PrintScaleX * p.XMm, PrintScaleY * p.YMm);

    /// <summary>Camera frame, mm, of a place <paramref name="heightMm"/> above the card.</summary>
    public Vector3 InCamera(CardPoint p, double heightMm)
    {
        CardPoint pivot = Printed(Pivot);
        return CameraFromCard.Apply(new(p.XMm - pivot.XMm, p.YMm - pivot.YMm, -heightMm)) + PivotInCamera;
    }

    public PixelPoint Project(CardPoint p, double heightMm)
    {
        Vector3 c = InCamera(p, heightMm);
        double x = c.X / c.Z, y = c.Y / c.Z, s = Camera.FocalLengthPx * (1 + Camera.K1 * (x * x + y * y));
        return new(s * x + Camera.CentreXPx, s * y + Camera.CentreYPx);
    }

    /// <summary>Where the line of sight of a pixel meets the plane <paramref name="heightMm"/> above the card.</summary>
    public CardPoint ToPlane(PixelPoint p, double heightMm)
    {
        // Back in the card's frame with the pivot as origin: camera centre + s * ray has z = -height.
        Vector3 ray = CameraFromCard.ApplyInverse(Ray(p));
        Vector3 centre = -1 * CameraFromCard.ApplyInverse(PivotInCamera);
        double s = (-heightMm - centre.Z) / ray.Z;
        CardPoint pivot = Printed(Pivot);
        return new(centre.X + s * ray.X + pivot.XMm, centre.Y + s * ray.Y + pivot.YMm);
    }

    /// <summary>Line of sight in the camera's frame, z = 1. Newton on r_d = r (1 + k1 r²), exact to rounding within the range where the lens model is one-to-one.</summary>
    private Vector3 Ray(PixelPoint p)
    {
        double xd = (p.X - Camera.CentreXPx) / Camera.FocalLengthPx, yd = (p.Y - Camera.CentreYPx) / Camera.FocalLengthPx;
        double distorted = Math.Sqrt(xd * xd + yd * yd), r = distorted;
        if (distorted == 0) return new(0, 0, 1);
        for (int i = 0; i < 20; i++)
        {
            double step = (r * (1 + Camera.K1 * r * r) - distorted) / (1 + 3 * Camera.K1 * r * r);
            r -= step;
            if (Math.Abs(step) < 1e-15) break;
        }
        return new(xd * r / distorted, yd * r / distorted, 1);
    }

    /// <summary>Millimetres per pixel steps in x and in y at a pixel, in the plane: the columns of the Jacobian of <see cref="ToPlane"/>.</summary>
    public (Vector2 PerX, Vector2 PerY) PlanePerPixel(PixelPoint p, double heightMm)
    {
        // Central differences over half a pixel: the third derivative of the mapping is below 1e-9 per px², rounding at 1e-12.
        const double h = 0.5;
        CardPoint l = ToPlane(p with { X = p.X - h }, heightMm), r = ToPlane(p with { X = p.X + h }, heightMm);
        CardPoint u = ToPlane(p with { Y = p.Y - h }, heightMm), d = ToPlane(p with { Y = p.Y + h }, heightMm);
        return (new(r.XMm - l.XMm, r.YMm - l.YMm), new(d.XMm - u.XMm, d.YMm - u.YMm));
    }

    /// <summary>The geometry after a step of all <see cref="ParameterCount"/> parameters.</summary>
    /// <remarks>
    /// To first order the parameters move by the step. Beyond that, a change of focal length takes the others along as a zoom on the retreat does
    /// (distance and tilt grow with f, k1 with f²), which hardly changes the picture: else every longer step along this
    /// direction, the least certain of all, would leave the valley of the least squares and the fit would creep.
    /// </remarks>
    public CardGeometry Moved(ReadOnlySpan<double> step)
    {
        double d = step[LnFocal], zoom = Math.Exp(d), k1 = Camera.K1, z = PivotInCamera.Z;
        Vector3 normal = CameraFromCard.Z, lean = new(-normal.Y, normal.X, 0);
        double sine = lean.Length;
        // Turning about this by 1 would double the tilt.
        Vector3 tilt = sine > 1e-12 ? Math.Atan2(sine, normal.Z) / sine * lean : lean;
        return this with
        {
            Camera = new(Camera.FocalLengthPx * zoom, Camera.CentreXPx + step[CentreX], Camera.CentreYPx + step[CentreY], k1 * zoom * zoom + step[K1] - 2 * k1 * d),
            PrintScaleX = PrintScaleX * Math.Exp(step[LnPrintX]),
            PrintScaleY = PrintScaleY * Math.Exp(step[LnPrintY]),
            InkSpreadMm = InkSpreadMm + step[Ink],
            CameraFromCard = CameraFromCard.ThenTurned((zoom - 1) * tilt).ThenTurned(new Vector3(step[Turn], step[Turn + 1], step[Turn + 2]) - d * tilt),
            PivotInCamera = new(PivotInCamera.X + step[Shift], PivotInCamera.Y + step[Shift + 1], z * zoom + step[Shift + 2] - z * d),
        };
    }
}
