using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using OpenCvSharp;

namespace EdgeLens.Imaging.Edges;

/// <summary>Follows an edge to a fraction of a pixel: blocks of raw pixels along a supposed line, each fitted with the forward model of the edge.</summary>
public static class EdgeTracer
{
    // First round: blocks of 9 px hardly overlapping, enough to move the line to within a tenth of a pixel. Last: overlapping by two thirds, so that no pixel counts in one block only.
    private const int StrideFirstPx = 6;
    private const int StrideLastPx = 3;

    // 30 blocks of 160 pixels tell a common blur to about 1 %; more would cost time and tell nothing.
    private const int BlurBlocks = 30;

    // A rounding of less than a pixel hardly widens the edge: such places tell the blur.
    private const double SharpRadiusPx = 1;

    /// <summary>Traces the edge.</summary>
    /// <param name="grey">CV_8UC1, borrowed.</param>
    /// <param name="start">To within a few pixels.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <param name="light">How the steel shows the light.</param>
    /// <param name="leanDeg">Angle of the line of sight from the face's normal at a pixel, components along the picture's axes: positive where the camera stands.</param>
    /// <returns>The trace; places where no edge could be fitted are left out.</returns>
    public static EdgeTrace Trace(Mat grey, EdgeLine start, Sharpening sharpening, PanelLight light, Func<PixelPoint, Vector2> leanDeg)
    {
        ArgumentNullException.ThrowIfNull(grey);
        ArgumentNullException.ThrowIfNull(start);
        EdgeStrip first = new(grey, start, StrideFirstPx, light, leanDeg);
        // Before the offsets are known only the blur's order of size matters.
        Measured rough = BlurEstimator.Estimate(first.Sample(BlurBlocks), sharpening);
        EdgeTracePoint?[] draft = first.Fit(new(rough.Value, sharpening));
        EdgeStrip second = new(grey, EdgeLine.Through([.. draft.OfType<EdgeTracePoint>().Select(p => p.Position)], 2), StrideLastPx, light, leanDeg);
        EdgeTracePoint?[] better = second.Fit(new(rough.Value, sharpening));
        Measured blur = BlurEstimator.Estimate(second.SharpSample(better, SharpRadiusPx, BlurBlocks), sharpening);
        EdgeOptics optics = new(blur.Value, sharpening);
        EdgeTracePoint?[] known = second.Fit(optics);
        light = light with { Panels = [.. light.Panels.Select(p => p with { Light = LightRefiner.Refine(p.Light, second.Blocks, second.Facing(p), known, optics) })] };
        second.Relight(light, leanDeg);
        return new EdgeTrace([.. second.Fit(optics).OfType<EdgeTracePoint>()], optics, blur, light);
    }
}
