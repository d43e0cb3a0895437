using System.Collections.Immutable;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.FaceView;
using EdgeLens.Measuring.Inspection;
using OpenCvSharp;

namespace EdgeLens.Measuring.Pictures;

/// <summary>A small picture of the working end for people, with today's and the as-new outline in its own pixels.</summary>
/// <param name="Jpeg">The file.</param>
/// <param name="WidthPx">Of the picture.</param>
/// <param name="HeightPx">Of the picture.</param>
/// <param name="OutlinePx">Point by point as in the measurement; empty for a refused photograph.</param>
/// <param name="BaselineOutlinePx">The as-new outline as registered on today's; empty without one.</param>
/// <param name="MmPerPx">Of the picture, at the blade's middle; null for a refused photograph.</param>
public sealed record WorkingEndPicture(
    ReadOnlyMemory<byte> Jpeg, int WidthPx, int HeightPx, ImmutableArray<PixelPoint> OutlinePx, ImmutableArray<PixelPoint> BaselineOutlinePx, double? MmPerPx)
{
    /// <summary>Each edge unrolled straight; empty for a refused photograph.</summary>
    public ImmutableArray<UnrolledEdge> Edges { get; init; } = [];

    /// <summary>In the frame of the as-new outline; null where it was not asked for, or could not be registered.</summary>
    public RegisteredPicture? Registered { get; init; }

    /// <summary>Longer side at most: more than a page or a screen shows, little enough for a report to be sent by mail.</summary>
    private const double LongestSidePx = 1600;

    /// <summary>Left round the outline: room for numbers and names, the shank's root, and where the blade lies near it something of the card.</summary>
    private const double MarginMm = 2.5;

    /// <summary>The part of a measured photograph round the blade.</summary>
    /// <param name="photo">Borrowed.</param>
    /// <param name="face">What was measured in it.</param>
    /// <param name="baseline">Drawn too when <paramref name="face"/> was compared with it.</param>
    public static WorkingEndPicture Of(Photograph photo, FaceResult face, FaceMeasurement? baseline)
    {
        ArgumentNullException.ThrowIfNull(photo);
        ArgumentNullException.ThrowIfNull(face);
        FaceMeasurement today = face.Measurement;
        BladeProjection projection = new(face.Calibration, today.Outline, today.Scale.HeightOverCardMm.Value);
        ImmutableArray<PixelPoint> outline = [.. today.Outline.Points.Select(p => projection.Pixel(p.Position))];
        ImmutableArray<PixelPoint> asNew = [];
        if (baseline is not null && face.Drift is { } compared && compared.TryGet(out DriftMeasurement? drift, out _))
        {
            Similarity todayFromBaseline = drift.BaselineFromToday.Inverse();
            asNew = [.. baseline.Outline.Points.Select(p => projection.Pixel(todayFromBaseline.Apply(new(p.Position.XMm, p.Position.ZMm))))];
        }

        Rect region = PictureRegion.Around([.. outline, .. asNew], MarginMm / today.Scale.MmPerPx, photo);
        double scale = Math.Min(1, LongestSidePx / Math.Max(region.Width, region.Height));
        int width = Math.Max(1, (int)Math.Round(region.Width * scale)), height = Math.Max(1, (int)Math.Round(region.Height * scale));
        return new(
            SmallPicture.Jpeg(photo.Bgr, region, scale), width, height, [.. outline.Select(InCrop)], [.. asNew.Select(InCrop)], today.Scale.MmPerPx * region.Width / width)
        {
            Edges = UnrolledEdge.Of(photo, face),
        };

        PixelPoint InCrop(PixelPoint p) => PictureRegion.InCrop(p, region, width, height);
    }

    /// <summary>The whole of a photograph that was refused.</summary>
    /// <param name="photo">Borrowed.</param>
    public static WorkingEndPicture OfRefused(Photograph photo)
    {
        ArgumentNullException.ThrowIfNull(photo);
        double scale = Math.Min(1, LongestSidePx / Math.Max(photo.WidthPx, photo.HeightPx));
        return new(
            SmallPicture.Jpeg(photo.Bgr, new Rect(0, 0, photo.WidthPx, photo.HeightPx), scale),
            Math.Max(1, (int)Math.Round(photo.WidthPx * scale)), Math.Max(1, (int)Math.Round(photo.HeightPx * scale)), [], [], null);
    }
}
