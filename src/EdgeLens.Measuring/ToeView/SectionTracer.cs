using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;

namespace EdgeLens.Measuring.ToeView;

/// <summary>Follows a lateral surface's contour from its fitted line down to where it turns to the back, and writes it in the section's own axes.</summary>
internal static class SectionTracer
{
    private const double StepMm = 0.02;
    private const double FarthestMm = 0.8;
    private const int HalfMeanPx = 2;

    // From here on the contour counts as leaving the lateral surface: twice the scatter of a place averaged over five pixels.
    private const double LeavesPx = 1.5;
    private const double LeastTone = 3;

    /// <summary>The section's outline from the corner.</summary>
    /// <param name="picture">The photograph.</param>
    /// <param name="line">Fitted contour.</param>
    /// <param name="startPx">Distance of the line's first place from the corner.</param>
    /// <param name="internalDeg">Internal angle of the surface.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <param name="mmPerPx">At the toe.</param>
    public static SectionProfile Below(TonePicture picture, Stretch line, double startPx, double internalDeg, Sharpening sharpening, double mmPerPx)
    {
        SharpStep sharp = new(1.2, sharpening, 4);
        const int reach = 4;
        Stretch whole = Stretch.Between(line.At(0, 0), line.At(FarthestMm / mmPerPx - startPx, 0), line.At(0, -100));
        LineStrip strip = new(picture, whole, reach + 4, reach + 4);
        (double s, double c) = Math.SinCos(internalDeg * Math.PI / 180);
        ImmutableArray<SectionPoint>.Builder points = ImmutableArray.CreateBuilder<SectionPoint>();
        points.Add(new(0, 0));
        for (double t = HalfMeanPx; t + HalfMeanPx < strip.Rows; t += StepMm / mmPerPx)
        {
            if (Offset(strip, (int)t, sharp, reach) is not { } offset || Math.Abs(offset) > LeavesPx) break;
            double along = (t + startPx) * mmPerPx, outward = offset * mmPerPx;
            points.Add(new(along * c - outward * s, along * s + outward * c));
        }
        return new(points.ToImmutable());
    }

    private static double? Offset(LineStrip strip, int at, SharpStep sharp, int reach)
    {
        double[] mean = new double[strip.Columns];
        for (int t = at - HalfMeanPx; t <= at + HalfMeanPx; t++)
            for (int k = 0; k < mean.Length; k++) mean[k] += strip.Row(t)[k] / (2 * HalfMeanPx + 1);
        int best = Enumerable.Range(strip.InwardPx - reach, 2 * reach + 1).MaxBy(k => Math.Abs(sharp.Height(mean, k)));
        double height = Math.Abs(sharp.Height(mean, best));
        if (height < LeastTone) return null;
        if (best - 1 < sharp.HalfWidth || best + 1 >= mean.Length - sharp.HalfWidth) return best - strip.InwardPx;
        double before = Math.Abs(sharp.Height(mean, best - 1)), after = Math.Abs(sharp.Height(mean, best + 1)), bend = before - 2 * height + after;
        return best - strip.InwardPx + (bend < 0 ? 0.5 * (before - after) / bend : 0);
    }
}
