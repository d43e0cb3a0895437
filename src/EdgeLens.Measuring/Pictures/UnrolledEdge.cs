using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.FaceView;
using EdgeLens.Measuring.Inspection;
using OpenCvSharp;

namespace EdgeLens.Measuring.Pictures;

/// <summary>One edge of the photograph unrolled straight: the surroundings above, the edge along the middle, the steel below.</summary>
/// <param name="Part">Which edge.</param>
/// <param name="Jpeg">The file; x runs evenly along the edge.</param>
/// <param name="FromMm">Place of the left border: station along a side, length along the edge from the apex round a toe or tip (minus: left).</param>
/// <param name="ToMm">Place of the right border.</param>
/// <param name="OutsideMm">What is shown outside the edge.</param>
/// <param name="InsideMm">What is shown of the steel.</param>
public sealed record UnrolledEdge(EdgePart Part, ReadOnlyMemory<byte> Jpeg, double FromMm, double ToMm, double OutsideMm, double InsideMm)
{
    // The line of light of a rounding of 60 µm with its blur, and something of the face and of the ground to compare with.
    private const double Outside = 0.08, Inside = 0.16;

    // Enlarged so that a line of one pixel is seen in print.
    private const int RowsPerPx = 2;

    // A shorter edge is nothing to look at.
    private const int LeastColumns = 40;

    /// <summary>All edges that the light was measured along.</summary>
    /// <param name="photo">Borrowed.</param>
    /// <param name="face">What was measured in it.</param>
    public static ImmutableArray<UnrolledEdge> Of(Photograph photo, FaceResult face)
    {
        ArgumentNullException.ThrowIfNull(photo);
        ArgumentNullException.ThrowIfNull(face);
        return [.. face.Measurement.Light.Edges.Select(e => Unroll(photo, face, e.Part)).OfType<UnrolledEdge>()];
    }

    private static UnrolledEdge? Unroll(Photograph photo, FaceResult face, EdgePart part)
    {
        FaceMeasurement today = face.Measurement;
        double[] arcs = [.. today.Light.Samples.Where(s => s.Part == part).Select(s => s.ArcMm)];
        if (arcs.Length < 2) return null;
        double step = today.Scale.MmPerPx, apex = today.Outline.Apex.ArcMm;
        // Along a side places are stations; the samples of a part are neighbours along the outline.
        (double Place, OutlinePoint Point)[] points =
        [
            .. today.Outline.Points.Where(p => p.ArcMm >= arcs[0] && p.ArcMm <= arcs[^1])
                .Select(p => (Place: part == EdgePart.Toe ? p.ArcMm - apex : today.StationOriginZMm - p.Position.ZMm, p)).OrderBy(p => p.Place),
        ];
        double[] places = [.. points.Select(p => p.Place)];
        int columns = (int)((places[^1] - places[0]) / step), rows = (int)(RowsPerPx * (Outside + Inside) / step);
        if (columns < LeastColumns) return null;
        BladeProjection projection = new(face.Calibration, today.Outline, today.Scale.HeightOverCardMm.Value);
        using Mat mapX = new(rows, columns, MatType.CV_32FC1), mapY = new(rows, columns, MatType.CV_32FC1);
        PixelPoint[] outer = new PixelPoint[columns], inner = new PixelPoint[columns];
        for (int x = 0; x < columns; x++)
        {
            int found = Array.BinarySearch(places, places[0] + (x + 0.5) * step);
            OutlinePoint p = points[Math.Clamp(found < 0 ? ~found : found, 0, points.Length - 1)].Point;
            (outer[x], inner[x]) = (Pixel(p, -Outside), Pixel(p, Inside));
        }
        for (int y = 0; y < rows; y++)
        {
            Span<float> rowX = mapX.RowSpan<float>(y), rowY = mapY.RowSpan<float>(y);
            double t = (y + 0.5) / rows;
            for (int x = 0; x < columns; x++) (rowX[x], rowY[x]) = ((float)(outer[x].X + t * (inner[x].X - outer[x].X)), (float)(outer[x].Y + t * (inner[x].Y - outer[x].Y)));
        }
        using Mat unrolled = new();
        Cv2.Remap(photo.Bgr, unrolled, mapX, mapY, InterpolationFlags.Linear, BorderTypes.Replicate);
        return new(part, SmallPicture.Jpeg(unrolled, new Rect(0, 0, columns, rows), 1), places[0], places[0] + columns * step, Outside, Inside);

        PixelPoint Pixel(OutlinePoint p, double inwardMm) => projection.Pixel(new Vector2(p.Position.XMm, p.Position.ZMm) + inwardMm * p.Inward);
    }
}
