using EdgeLens.Geometry.Fitting;
using System.Collections.Immutable;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;

namespace EdgeLens.Imaging.Edges;

/// <summary>Moves a supposed edge to where the light falls through half between face and ground, coming from outside: good to a pixel, a start for the fit.</summary>
public static class HalfLevelSnap
{
    // The coarse silhouette is good to a few pixels (threshold, staircase, light on the edge); half a pixel is fine enough for a start.
    private const double ReachPx = 8;
    private const double StepPx = 0.5;

    /// <summary>The snapped points; a point without a crossing stays where it was.</summary>
    /// <param name="grey">CV_8UC1, borrowed.</param>
    /// <param name="line">Supposed edge.</param>
    /// <param name="groundLevel">Linear brightness of the ground.</param>
    public static ImmutableArray<PixelPoint> Snap(Mat grey, EdgeLine line, double groundLevel)
    {
        int samples = (int)(2 * ReachPx / StepPx) + 1;
        double[] light = new double[samples];
        double[] shift = new double[line.Points.Length];
        EdgePlace[] places = new EdgePlace[line.Points.Length];
        for (int i = 0; i < places.Length; i++)
        {
            EdgePlace place = places[i] = line.PlaceAt(i, 0, 0);
            for (int k = 0; k < samples; k++)
            {
                double u = ReachPx - k * StepPx;
                light[k] = LinearLight.At(grey, new(place.Centre.X + u * place.Outward.X, place.Centre.Y + u * place.Outward.Y));
            }
            shift[i] = Crossing(light, groundLevel);
        }
        double[] calm = RobustSmoother.RunningMedian(shift, 4);
        return [.. places.Select((p, i) => new PixelPoint(p.Centre.X + calm[i] * p.Outward.X, p.Centre.Y + calm[i] * p.Outward.Y))];
    }

    private static double Crossing(double[] light, double groundLevel)
    {
        // The face: the median of the inner third, where neither a line on the edge nor a scratch counts.
        double[] inner = light[(2 * light.Length / 3)..];
        Array.Sort(inner);
        double half = (inner[inner.Length / 2] + groundLevel) / 2;
        for (int k = 1; k < light.Length; k++)
            if (light[k] >= half && light[k - 1] < half)
                return ReachPx - StepPx * (k - 1 + (half - light[k - 1]) / (light[k] - light[k - 1]));
        return 0;
    }
}
