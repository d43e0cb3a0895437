using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;

namespace EdgeLens.Measuring.Pictures;

/// <summary>The part of a photograph that a small picture shows.</summary>
internal static class PictureRegion
{
    /// <summary>Smallest rectangle round places with a margin, inside the photograph.</summary>
    public static Rect Around(IReadOnlyCollection<PixelPoint> points, double marginPx, Photograph photo)
    {
        int left = Inside(points.Min(p => p.X) - marginPx, photo.WidthPx - 1), right = Inside(points.Max(p => p.X) + marginPx, photo.WidthPx - 1);
        int top = Inside(points.Min(p => p.Y) - marginPx, photo.HeightPx - 1), bottom = Inside(points.Max(p => p.Y) + marginPx, photo.HeightPx - 1);
        return new(left, top, right - left + 1, bottom - top + 1);
    }

    /// <summary>A place of the photograph in the picture's pixels. Edges of the crop fall on edges of pixels, half a pixel beside the centres.</summary>
    public static PixelPoint InCrop(PixelPoint p, Rect region, int widthPx, int heightPx) =>
        new((p.X - region.X + 0.5) * widthPx / region.Width - 0.5, (p.Y - region.Y + 0.5) * heightPx / region.Height - 0.5);

    private static int Inside(double px, int last) => (int)Math.Clamp(Math.Round(px), 0, last);
}
