using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using EdgeLens.Reports;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Formats.Jpeg;
using SixLabors.ImageSharp.PixelFormats;

namespace EdgeLens.Tests.Inspections;

/// <summary>A plain picture of a synthetic working end: black ground, grey steel, a bright line where the edge reflects. Tip at the right, left edge on top.</summary>
internal static class SyntheticPhotograph
{
    private const double MmPerPx = 0.008;
    private const double MarginMm = 0.45;

    public static ReportPhotograph Of(Inspection inspection)
    {
        FaceMeasurement today = inspection.Today!;
        double halfMm = today.Outline.Points.Max(p => Math.Abs(p.Position.XMm)) + MarginMm, fromZ = today.Outline.Points.Min(p => p.Position.ZMm) - MarginMm / 2;
        double toZ = Math.Max(today.Outline.Apex.Position.ZMm, today.StationOriginZMm) + MarginMm;
        int width = (int)((toZ - fromZ) / MmPerPx), height = (int)(2 * halfMm / MmPerPx);
        PixelPoint Place(OutlinePoint p) => new((p.Position.ZMm - fromZ) / MmPerPx, (halfMm - p.Position.XMm) / MmPerPx);
        PixelPoint[] outline = [.. today.Outline.Points.Select(Place)];
        return new(Draw(width, height, outline, today), width, height, [.. outline], MmPerPx)
        {
            BaselineOutlinePx = inspection.Baseline is { } asNew ? [.. asNew.Outline.Points.Select(Place)] : [],
        };
    }

    private static byte[] Draw(int width, int height, PixelPoint[] outline, FaceMeasurement today)
    {
        using Image<L8> picture = new(width, height);
        int apex = today.Outline.ApexIndex;
        for (int x = 0; x < width; x++)
        {
            double top = Crossing(outline[..(apex + 1)], x), bottom = Crossing(outline[apex..], x);
            for (int y = 0; y < height; y++)
                picture[x, y] = new((byte)(x <= outline[apex].X && y > top && y < bottom ? 92 + 22 * Math.Sin(x * 0.9) * Math.Sin(x * 0.013) + 14 * (y - top) / (bottom - top) : 9));
        }
        foreach (LightSample sample in today.Light.Samples)
        {
            if (sample.ReflectionWidthUm.Measured is not { Value: > 2 } line) continue;
            int i = Enumerable.Range(0, outline.Length).MinBy(k => Math.Abs(today.Outline.Points[k].ArcMm - sample.ArcMm));
            int half = Math.Max(1, (int)Math.Round(line.Value / 1000 / MmPerPx));
            for (int dx = -4; dx <= 4; dx++)
                for (int dy = -half; dy <= half; dy++)
                    if (Math.Clamp((int)outline[i].X + dx, 0, width - 1) is var px && Math.Clamp((int)outline[i].Y + dy, 0, height - 1) is var py) picture[px, py] = new(235);
        }
        using MemoryStream file = new();
        picture.Save(file, new JpegEncoder { Quality = 85 });
        return file.ToArray();
    }

    private static double Crossing(PixelPoint[] side, double x) => side.MinBy(p => Math.Abs(p.X - x)).Y;
}
