using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using OpenCvSharp;

namespace EdgeLens.Imaging.Edges;

/// <summary>Follows an edge to a fraction of a pixel: blocks of raw pixels along a supposed line, each fitted with the forward model of the edge.</summary>
public static class EdgeTracer
{
    // A block of 9 pixels along the edge averages the noise of 9 scan lines; a toe of 0.4 mm radius sags by a third of a pixel in it,
    // which the curved distance takes out.
    private const double HalfLengthPx = 4.5;
    private const int StrideFirst = 6;
    private const int StrideLast = 3;
    private const int BlurBlocks = 40;

    // Offsets beyond this cannot be trusted to belong to the same edge.
    private const double GreatestShiftPx = 4;

    // What the model leaves out: a lens's point spread is no exact Gaussian, a rounding no exact circle. Measured on rendered
    // photographs of known truth: docs/physics/edge-profile.md.
    private const double ModelSigmaPx = 0.05;

    /// <summary>Traces the edge.</summary>
    /// <param name="grey">CV_8UC1, borrowed.</param>
    /// <param name="start">To within a few pixels.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <param name="light">How the steel shows the light.</param>
    /// <returns>The trace; points where no edge could be fitted are left out.</returns>
    public static EdgeTrace Trace(Mat grey, EdgeLine start, Sharpening sharpening, SteelLight light)
    {
        ArgumentNullException.ThrowIfNull(grey);
        ArgumentNullException.ThrowIfNull(start);
        double[] reach = InnerReach.Of(start);
        int stride = Math.Max(1, start.Points.Length / BlurBlocks);
        EdgePlace[] sample = [.. Enumerable.Range(0, start.Points.Length / stride).Select(i => Place(start, reach, i * stride))];
        // Before the offsets are known, only the blur's order of size matters.
        Measured rough = BlurEstimator.Estimate(grey, sample, sharpening, light);
        EdgeLine better = EdgeLine.Through([.. Fits(grey, start, reach, StrideFirst, new(rough.Value, sharpening), light).Select(f => f.Position)], 2);
        reach = InnerReach.Of(better);
        stride = Math.Max(1, better.Points.Length / BlurBlocks);
        sample = [.. Enumerable.Range(0, better.Points.Length / stride).Select(i => Place(better, reach, i * stride))];
        Measured blur = BlurEstimator.Estimate(grey, sample, sharpening, light);
        EdgeOptics optics = new(blur.Value, sharpening);
        return new EdgeTrace(Fits(grey, better, reach, StrideLast, optics, light), optics, blur, light);
    }

    private static EdgePlace Place(EdgeLine line, double[] reach, int index) => line.PlaceAt(index, HalfLengthPx, reach[index]);

    private static ImmutableArray<EdgeTracePoint> Fits(Mat grey, EdgeLine line, double[] reach, int stride, EdgeOptics optics, SteelLight light)
    {
        int count = (line.Points.Length - 1) / stride + 1;
        EdgeFit?[] fits = new EdgeFit?[count];
        EdgePlace[] places = new EdgePlace[count];
        Parallel.For(0, count, () => (Fitter: new EdgeFitter(), Block: new EdgeBlock()), (i, _, own) =>
        {
            places[i] = Place(line, reach, i * stride);
            own.Block.Fill(grey, places[i]);
            fits[i] = own.Fitter.Fit(own.Block, optics, light);
            return own;
        }, _ => { });
        ImmutableArray<EdgeTracePoint>.Builder points = ImmutableArray.CreateBuilder<EdgeTracePoint>(line.Points.Length);
        for (int i = 0; i < count; i++)
        {
            if (fits[i] is not { } fit || Math.Abs(fit.Shape.OffsetPx) > GreatestShiftPx) continue;
            points.Add(Point(places[i], fit, light));
        }
        return points.ToImmutable();
    }

    private static EdgeTracePoint Point(in EdgePlace place, in EdgeFit fit, SteelLight light)
    {
        EdgeShape s = fit.Shape;
        // The band's middle lies (1 - middle) radii inside the silhouette; a radius that is wrong by the band's and the level's
        // uncertainty moves the silhouette by as much.
        double lever = 1 - (light.BandStart + light.BandEnd) / 2;
        double fromLight = lever * s.RadiusPx * Quadrature.Sum(light.BandRelativeUncertainty, light.LitLevelRelativeUncertainty);
        double sigma = Quadrature.Sum(fit.OffsetSigmaPx, fromLight, ModelSigmaPx);
        PixelPoint position = new(place.Centre.X + s.OffsetPx * place.Outward.X, place.Centre.Y + s.OffsetPx * place.Outward.Y);
        return new(position, place.Outward, sigma, s.RadiusPx, fit.RadiusSigmaPx, s.FaceLevel, s.GroundLevel, false);
    }
}
