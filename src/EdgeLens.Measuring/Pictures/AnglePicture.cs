using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;

namespace EdgeLens.Measuring.Pictures;

/// <summary>A small picture of a toe or side view for people, with the fitted lines in its own pixels.</summary>
/// <param name="Jpeg">The file.</param>
/// <param name="WidthPx">Of the picture.</param>
/// <param name="HeightPx">Of the picture.</param>
/// <param name="Lines">As fitted; those that do not belong to what the picture shows are left out.</param>
public sealed record AnglePicture(ReadOnlyMemory<byte> Jpeg, int WidthPx, int HeightPx, ImmutableArray<FittedLine> Lines)
{
    /// <summary>Longer side at most: two of them, side by side on a page.</summary>
    private const double LongestSidePx = 1000;

    /// <summary>The closer picture is enlarged to at least this, so that lines drawn over it hide little of the edge.</summary>
    private const double CloseSidePx = 900;

    /// <summary>All lines, and the edge alone from near.</summary>
    /// <param name="photo">Borrowed.</param>
    /// <param name="angles">What was measured in it.</param>
    public static ImmutableArray<AnglePicture> Of(Photograph photo, AngleMeasurement angles)
    {
        ArgumentNullException.ThrowIfNull(photo);
        ArgumentNullException.ThrowIfNull(angles);
        FittedLine[] edge = [.. angles.Lines.Where(l => l.Role != LineRole.ShankAxis && (angles.View == PhotographView.Toe || l.Role != LineRole.Face))];
        if (edge.Length == 0) return [];
        // The edge's own lines are half a millimetre to one long: as much again is left round them.
        double length = edge.Max(l => new Vector2(l.To.X - l.From.X, l.To.Y - l.From.Y).Length);
        return [Crop(photo, [.. angles.Lines], length, angles.Lines, false), Crop(photo, edge, 0.7 * length, [.. edge], true)];
    }

    private static AnglePicture Crop(Photograph photo, FittedLine[] shown, double marginPx, ImmutableArray<FittedLine> lines, bool close)
    {
        PixelPoint[] ends = [.. shown.SelectMany(l => (PixelPoint[])[l.From, l.To])];
        Rect region = PictureRegion.Around(ends, marginPx, photo);
        double longest = Math.Max(region.Width, region.Height), scale = close ? Math.Clamp(CloseSidePx / longest, 1, 4) : Math.Min(1, LongestSidePx / longest);
        int width = Math.Max(1, (int)Math.Round(region.Width * scale)), height = Math.Max(1, (int)Math.Round(region.Height * scale));
        return new(SmallPicture.Jpeg(photo.Bgr, region, scale), width, height, [.. lines.Select(l => new FittedLine(l.Role, InCrop(l.From), InCrop(l.To)))]);

        PixelPoint InCrop(PixelPoint p) => PictureRegion.InCrop(p, region, width, height);
    }
}
