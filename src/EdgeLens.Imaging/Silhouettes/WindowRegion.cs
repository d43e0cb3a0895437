using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using OpenCvSharp;

namespace EdgeLens.Imaging.Silhouettes;

/// <summary>The part of the picture where the blade lies against the black recess: the card's window less the tab with the patches.</summary>
public sealed class WindowRegion : IDisposable
{
    /// <summary>Kept clear of the window's cut edge and of the tab: the cut is not exact, and its wall is seen when the camera is tilted (5 mm deep at 15°: 1.3 mm, mostly dark).</summary>
    public const double MarginMm = 0.35;

    private WindowRegion(Rect bounds, Mat mask)
    {
        Bounds = bounds;
        Mask = mask;
    }

    /// <summary>Bounding box in the photograph.</summary>
    public Rect Bounds { get; }

    /// <summary>CV_8UC1, 255 inside, size of <see cref="Bounds"/>; owned by this object.</summary>
    public Mat Mask { get; }

    /// <summary>True where a pixel lies in the region.</summary>
    public bool Holds(PixelPoint pixel)
    {
        int x = (int)Math.Round(pixel.X) - Bounds.Left, y = (int)Math.Round(pixel.Y) - Bounds.Top;
        return x >= 0 && y >= 0 && x < Mask.Cols && y < Mask.Rows && Mask.RowSpan<byte>(y)[x] != 0;
    }

    /// <summary>Draws the region for one photograph; null when less than a tenth of the window is in the picture.</summary>
    public static WindowRegion? Of(CardCalibration calibration, CardDescription card, Size picture)
    {
        ArgumentNullException.ThrowIfNull(calibration);
        ArgumentNullException.ThrowIfNull(card);
        Point[] window = Corners(calibration, card.Window.XMm + MarginMm, card.Window.YMm + MarginMm,
            card.Window.RightMm - MarginMm, card.Window.BottomMm - MarginMm);
        Rect whole = Cv2.BoundingRect(window);
        Rect bounds = whole & new Rect(1, 1, picture.Width - 2, picture.Height - 2);
        if (bounds.Width <= 0 || bounds.Height <= 0 || (long)bounds.Width * bounds.Height < (long)whole.Width * whole.Height / 10) return null;
        Mat mask = new(bounds.Size, MatType.CV_8UC1, Scalar.Black);
        Cv2.FillConvexPoly(mask, Shifted(window, bounds.TopLeft), Scalar.White);
        // 1 mm beyond the window's corner: the tab grows out of it.
        DesignRectangle tab = card.Tab;
        Point[] corners = Corners(calibration, tab.XMm - 1, tab.YMm - 1, tab.RightMm + MarginMm, tab.BottomMm + MarginMm);
        Cv2.FillConvexPoly(mask, Shifted(corners, bounds.TopLeft), Scalar.Black);
        return new WindowRegion(bounds, mask);
    }

    /// <inheritdoc />
    public void Dispose() => Mask.Dispose();

    private static Point[] Corners(CardCalibration calibration, double x0, double y0, double x1, double y1) =>
        [At(calibration, x0, y0), At(calibration, x1, y0), At(calibration, x1, y1), At(calibration, x0, y1)];

    private static Point At(CardCalibration calibration, double nominalXMm, double nominalYMm)
    {
        PixelPoint p = calibration.Project(calibration.Printed(new(nominalXMm, nominalYMm)), 0);
        return new Point((int)Math.Round(p.X), (int)Math.Round(p.Y));
    }

    private static Point[] Shifted(Point[] points, Point origin) => [.. points.Select(p => p - origin)];
}
