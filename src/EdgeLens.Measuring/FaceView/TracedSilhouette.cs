using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Edges;

namespace EdgeLens.Measuring.FaceView;

/// <summary>Carries a traced edge from pixels into the plane of the face.</summary>
internal static class TracedSilhouette
{
    /// <summary>Silhouette points, about one per pixel.</summary>
    /// <param name="trace">In the photograph.</param>
    /// <param name="calibration">Of the photograph.</param>
    /// <param name="heightMm">Of the face over the card.</param>
    /// <remarks>
    /// The silhouette of a rounding of radius r lies where its normal is square to the line of sight, one radius below the face: seen along a leaning line
    /// it is displaced by r tan t. Meeting the line of sight with the plane one radius lower takes that out.
    /// </remarks>
    public static ImmutableArray<SilhouettePoint> InFacePlane(EdgeTrace trace, CardCalibration calibration, double heightMm)
    {
        ImmutableArray<SilhouettePoint>.Builder points = ImmutableArray.CreateBuilder<SilhouettePoint>();
        for (int i = 0; i < trace.Points.Length; i++)
        {
            EdgeTracePoint p = trace.Points[i];
            (CardPoint place, double sigmaUm) = Map(p);
            if (i > 0)
            {
                EdgeTracePoint last = trace.Points[i - 1];
                (CardPoint before, double sigmaBefore) = Map(last);
                int steps = (int)Math.Ceiling(Math.Sqrt(Math.Pow(p.Position.X - last.Position.X, 2) + Math.Pow(p.Position.Y - last.Position.Y, 2)));
                for (int k = 1; k < steps; k++)
                {
                    double t = (double)k / steps;
                    points.Add(new(new(before.XMm + t * (place.XMm - before.XMm), before.YMm + t * (place.YMm - before.YMm)), Math.Max(sigmaUm, sigmaBefore)));
                }
            }
            points.Add(new(place, sigmaUm));
        }
        return points.ToImmutable();

        (CardPoint Place, double SigmaUm) Map(in EdgeTracePoint p)
        {
            double mmPerPx = calibration.MmPerPx(calibration.ToPlane(p.Position, heightMm), heightMm);
            return (calibration.ToPlane(p.Position, heightMm - p.RadiusPx * mmPerPx), p.SigmaPx * mmPerPx * 1000);
        }
    }
}
