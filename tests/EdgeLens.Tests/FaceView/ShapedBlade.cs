using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Tests.FaceView;

/// <summary>
/// A working end by formula in its own frame (z from the heel, x to the left): sides tapering from heel to toe, an end that is half a superellipse or an arc
/// meeting the sides in corners, and a neck behind the heel that narrows along a smooth step and then widens to the shank.
/// </summary>
internal sealed record ShapedBlade
{
    public double LengthMm { get; init; } = 5.4;
    public double HalfHeelMm { get; init; } = 0.50;
    public double HalfToeMm { get; init; } = 0.42;

    /// <summary>Semi-axis of the end along z.</summary>
    public double EndMm { get; init; } = 0.42;

    /// <summary>Instead of an ellipse: an arc of this radius across the whole width.</summary>
    public double? TipArcMm { get; init; }

    public double HalfNeckMm { get; init; } = 0.42;
    public double NeckMm { get; init; } = 1.0;
    public double ShankWidening { get; init; } = 0.11;

    /// <summary>How far the neck leans aside per mm, as on an area-specific curette.</summary>
    public double Lean { get; init; }

    /// <summary>Left side?, z, depth, sigma of the Gaussian form, mm.</summary>
    public ImmutableArray<(bool Left, double Z, double DepthMm, double SigmaMm)> Nicks { get; init; } = [];

    /// <summary>On a round end: angle from the axis (to the left positive), depth along the normal, sigma along the arc.</summary>
    public (double AngleDeg, double DepthMm, double SigmaMm)? ToeNick { get; init; }

    /// <summary>Noise of points, as told to the program and as made.</summary>
    public const double SigmaUm = 2;

    public const double SpacingMm = 0.012;

    public static OutlineNoise Noise { get; } = new();

    private double SideEnd => LengthMm - (TipArcMm is { } r ? r - Math.Sqrt(r * r - HalfToeMm * HalfToeMm) : EndMm);

    /// <summary>Half width at z, without nicks; 0 beyond the apex.</summary>
    public double HalfWidthAt(double z)
    {
        if (z < 0)
        {
            double q = Math.Min(1, -z / NeckMm);
            return HalfHeelMm + (HalfNeckMm - HalfHeelMm) * q * q * (3 - 2 * q) + ShankWidening * Math.Max(0, -z - NeckMm);
        }
        if (z <= SideEnd) return HalfHeelMm + (HalfToeMm - HalfHeelMm) * z / SideEnd;
        if (z >= LengthMm) return 0;
        if (TipArcMm is { } r) return Math.Sqrt(Math.Max(0, r * r - Math.Pow(z - (LengthMm - r), 2)));
        double v = (z - SideEnd) / EndMm;
        return HalfToeMm * Math.Sqrt(Math.Max(0, 1 - v * v));
    }

    /// <summary>The silhouette from the left neck round to the right neck, evenly spaced, exact.</summary>
    public Vector2[] Silhouette()
    {
        List<Vector2> left = [];
        double back = -1.6 * NeckMm;
        for (double z = back; z < SideEnd; z += 0.002) left.Add(new(HalfWidthAt(z), z));
        // The end by angle, so that it is as finely drawn where it runs across.
        for (int i = 0; i <= 2000; i++)
        {
            if (TipArcMm is { } r)
            {
                double a = Math.Asin(HalfToeMm / r) * (1 - i / 2000.0);
                left.Add(new(r * Math.Sin(a), LengthMm - r + r * Math.Cos(a)));
            }
            else
            {
                double a = Math.PI / 2 * i / 2000;
                left.Add(new(HalfToeMm * Math.Cos(a), SideEnd + EndMm * Math.Sin(a)));
            }
        }
        Vector2[] u = [.. left.Select(p => Placed(p, true)), .. left.AsEnumerable().Reverse().Skip(1).Select(p => Placed(p with { X = -p.X }, false))];
        return Polyline.Resample(u, SpacingMm);
    }

    /// <summary>As a photograph would give it: noise of both kinds along the normal, carried to the card, either way round.</summary>
    public ImmutableArray<SilhouettePoint> Photograph(Similarity cardFromBlade, Random random, bool reversed = false, double noiseShare = 1)
    {
        Vector2[] u = Silhouette();
        double[] fast = Fitting.Noise.Correlated(u.Length, SpacingMm, Noise.CorrelationMm, noiseShare * SigmaUm / 1000, random);
        double[] slow = Fitting.Noise.Correlated(u.Length, SpacingMm, Noise.SystematicCorrelationMm, noiseShare * Noise.SystematicSdUm / 1000, random);
        IEnumerable<SilhouettePoint> points = u.Select((p, i) =>
        {
            Vector2 tangent = (u[Math.Min(i + 1, u.Length - 1)] - u[Math.Max(i - 1, 0)]).Unit, q = cardFromBlade.Apply(p + (fast[i] + slow[i]) * tangent.Perpendicular);
            return new SilhouettePoint(new(q.X, q.Y), SigmaUm);
        });
        return [.. reversed ? points.Reverse() : points];
    }

    private Vector2 Placed(Vector2 p, bool left)
    {
        double inward = Nicks.Where(n => n.Left == left).Sum(n => n.DepthMm * Math.Exp(-0.5 * Math.Pow((p.Y - n.Z) / n.SigmaMm, 2)));
        if (ToeNick is { } nick && p.Y > SideEnd)
        {
            Vector2 outward = p - new Vector2(0, SideEnd);
            double arc = EndMm * (Math.Atan2(outward.X, outward.Y) - nick.AngleDeg * Math.PI / 180);
            return p + -nick.DepthMm * Math.Exp(-0.5 * Math.Pow(arc / nick.SigmaMm, 2)) * outward.Unit;
        }
        // Nicks stand on the sides, whose normal is x within the taper's 1°; a leaning neck moves aside as a whole.
        return new(p.X + (left ? -inward : inward) + Lean * Math.Max(0, -p.Y - 0.2), p.Y);
    }
}
