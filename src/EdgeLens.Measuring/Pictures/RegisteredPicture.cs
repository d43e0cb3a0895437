using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.FaceView;
using EdgeLens.Measuring.Inspection;
using OpenCvSharp;

namespace EdgeLens.Measuring.Pictures;

/// <summary>
/// The face as it lies in the frame of its as-new outline, heel left, toe right, left edge up: in all such pictures of a working end the same steel lies at the same place and at the
/// same scale, as well as the drift's registration knows it.
/// </summary>
/// <param name="Jpeg">The file.</param>
/// <param name="WidthPx">Of the picture.</param>
/// <param name="HeightPx">Of the picture.</param>
/// <param name="MmPerPx">Of the picture, in the plane of the face.</param>
public sealed record RegisteredPicture(ReadOnlyMemory<byte> Jpeg, int WidthPx, int HeightPx, double MmPerPx)
{
    /// <summary>Along the blade: what a wide screen shows.</summary>
    private const int WidePx = 1600;

    /// <summary>Left round the as-new outline: the ground beside the edges, something of the shank behind the heel.</summary>
    private const double MarginMm = 0.8;

    /// <summary>
    /// Places are projected on a grid of this many pixels and are linear between. Over 1600 px the scale changes by less than 2 % (tilt of up to 15° seen from 100 mm) and the lens bends
    /// less: half a step squared times the second derivative is below 0.01 px.
    /// </summary>
    private const int StepPx = 32;

    /// <summary>Makes the picture; null when the photograph could not be registered with the as-new one.</summary>
    /// <param name="photo">Borrowed.</param>
    /// <param name="face">What was measured in it.</param>
    /// <param name="baseline">The as-new face that it was compared with; null when it is itself the as-new one.</param>
    public static RegisteredPicture? Of(Photograph photo, FaceResult face, FaceMeasurement? baseline)
    {
        ArgumentNullException.ThrowIfNull(photo);
        ArgumentNullException.ThrowIfNull(face);
        if (Mapping.Of(face, baseline) is not { } mapping) return null;
        using Mat mapX = new(mapping.HeightPx, mapping.WidthPx, MatType.CV_32FC1), mapY = new(mapping.HeightPx, mapping.WidthPx, MatType.CV_32FC1), picture = new();
        for (int top = 0; top < mapping.HeightPx; top += StepPx)
            for (int left = 0; left < mapping.WidthPx; left += StepPx) Fill(mapping, mapX, mapY, left, top);
        Cv2.Remap(photo.Bgr, picture, mapX, mapY, InterpolationFlags.Linear, BorderTypes.Constant);
        return new(SmallPicture.Jpeg(picture, new Rect(0, 0, mapping.WidthPx, mapping.HeightPx), 1), mapping.WidthPx, mapping.HeightPx, mapping.MmPerPx);
    }

    private static void Fill(Mapping mapping, Mat mapX, Mat mapY, int left, int top)
    {
        PixelPoint a = mapping.InPhotograph(new(left, top)), b = mapping.InPhotograph(new(left + StepPx, top));
        PixelPoint c = mapping.InPhotograph(new(left, top + StepPx)), d = mapping.InPhotograph(new(left + StepPx, top + StepPx));
        int right = Math.Min(left + StepPx, mapping.WidthPx), bottom = Math.Min(top + StepPx, mapping.HeightPx);
        for (int y = top; y < bottom; y++)
        {
            Span<float> rowX = mapX.RowSpan<float>(y), rowY = mapY.RowSpan<float>(y);
            double v = (y - top) / (double)StepPx;
            for (int x = left; x < right; x++)
            {
                double u = (x - left) / (double)StepPx;
                rowX[x] = (float)((1 - v) * ((1 - u) * a.X + u * b.X) + v * ((1 - u) * c.X + u * d.X));
                rowY[x] = (float)((1 - v) * ((1 - u) * a.Y + u * b.Y) + v * ((1 - u) * c.Y + u * d.Y));
            }
        }
    }

    /// <summary>From the picture into the photograph.</summary>
    internal sealed class Mapping
    {
        private readonly BladeProjection _projection;
        private readonly Similarity _todayFromAsNew;
        private readonly double _leftXMm, _heelZMm;

        private Mapping(FaceResult face, Outline asNew, Similarity todayFromAsNew)
        {
            FaceMeasurement today = face.Measurement;
            (_projection, _todayFromAsNew) = (new(face.Calibration, today.Outline, today.Scale.HeightOverCardMm.Value), todayFromAsNew);
            double length = asNew.Apex.Position.ZMm + 2 * MarginMm;
            (_leftXMm, _heelZMm) = (asNew.Points.Max(p => p.Position.XMm) + MarginMm, -MarginMm);
            MmPerPx = length / WidePx;
            (WidthPx, HeightPx) = (WidePx, (int)Math.Ceiling((_leftXMm - asNew.Points.Min(p => p.Position.XMm) + MarginMm) / MmPerPx));
        }

        public double MmPerPx { get; }

        public int WidthPx { get; }

        public int HeightPx { get; }

        public static Mapping? Of(FaceResult face, FaceMeasurement? baseline) =>
            baseline is null ? new(face, face.Measurement.Outline, Similarity.Identity)
            : face.Drift is { } compared && compared.TryGet(out DriftMeasurement? drift, out _) ? new(face, baseline.Outline, drift.BaselineFromToday.Inverse())
            : null;

        /// <summary>Where the photograph shows a place of the picture.</summary>
        public PixelPoint InPhotograph(PixelPoint place) =>
            _projection.Pixel(_todayFromAsNew.Apply(new(_leftXMm - (place.Y + 0.5) * MmPerPx, _heelZMm + (place.X + 0.5) * MmPerPx)));
    }
}
