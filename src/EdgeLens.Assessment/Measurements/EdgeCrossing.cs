using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Measurements;

/// <summary>Where one side of the outline crosses a line of constant z, from a parabola through the points near by.</summary>
/// <param name="XMm">Place of the crossing.</param>
/// <param name="SlopeXPerZ">dx/dz of the side there.</param>
/// <param name="FirstIndex">First outline point that took part.</param>
/// <param name="Sensitivities">Change of x per mm that each point moves along its inward normal.</param>
/// <param name="Misfit">At least 1: root of the reduced chi square, by which the edge differs from the parabola more than noise allows (Birge 1932).</param>
internal sealed record EdgeCrossing(double XMm, double SlopeXPerZ, int FirstIndex, ImmutableArray<double> Sensitivities, double Misfit)
{
    /// <summary>
    /// Half window along the arc. Noise with a correlation of 30 µm has about 2.7 independent values in 0.2 mm, so that a parabola is no noisier than a single
    /// point and a straight line would be better by a third only; but a straight line cuts a nick 0.35 mm long and 0.11 mm deep by 27 µm and a luxator's arc by
    /// 3 µm, the parabola by 2.5 µm and less than 0.1 µm (fourth derivative times h⁴/280). A longer window would smooth nicks away.
    /// </summary>
    public const double HalfWindowMm = 0.1;

    /// <summary>
    /// Misfit above which the window is halved, twice at most: correlated noise leaves 0.6 to 1.1 of its size behind a parabola, so beyond 1.25 it is the edge
    /// that bends faster than the window (a corner, a nick's flank).
    /// </summary>
    private const double GreatestMisfit = 1.25;

    /// <summary>Fewest points for a parabola that also tells its misfit.</summary>
    private const int FewestPoints = 5;

    /// <summary>Flattest crossing: below it (6°) x runs ten times faster than the outline's error, and the parabola may miss the line.</summary>
    private const double LeastSine = 0.1;

    /// <summary>Crosses one side.</summary>
    /// <param name="outline">In its frame.</param>
    /// <param name="left">Which side.</param>
    /// <param name="z">Height.</param>
    /// <returns>The crossing, or null where the side is not met, has too few points near by, or runs along the line.</returns>
    public static EdgeCrossing? At(Outline outline, bool left, double z)
    {
        EdgeCrossing? crossing = At(outline, left, z, HalfWindowMm);
        for (double window = HalfWindowMm / 2; crossing is { Misfit: > GreatestMisfit } && window >= HalfWindowMm / 4; window /= 2)
        {
            if (At(outline, left, z, window) is not { } closer) break;
            crossing = closer;
        }
        return crossing;
    }

    private static EdgeCrossing? At(Outline outline, bool left, double z, double halfWindow)
    {
        int begin = left ? 0 : outline.ApexIndex, end = left ? outline.ApexIndex + 1 : outline.Points.Length;
        Vector2[] side = [.. outline.Points.AsSpan()[begin..end].ToArray().Select(p => new Vector2(p.Position.XMm, p.Position.ZMm))];
        IReadOnlyList<Crossing> crossings = Polyline.CrossingsAtY(side, z);
        if (crossings.Count == 0) return null;
        Crossing outermost = left ? crossings.MaxBy(c => c.X) : crossings.MinBy(c => c.X);
        Vector2 at = new(outermost.X, z);
        double arc = outline.Points[begin + outermost.Segment].ArcMm + (at - side[outermost.Segment]).Length;
        int from = begin + outermost.Segment, to = from + 1;
        while (from > begin && outline.Points[from - 1].ArcMm >= arc - halfWindow) from--;
        while (to < end && outline.Points[to].ArcMm <= arc + halfWindow) to++;
        if (to - from < FewestPoints) return null;

        ReadOnlySpan<OutlinePoint> near = outline.Points.AsSpan()[from..to];
        Vector2 inward = default;
        foreach (OutlinePoint p in near) inward += p.Inward;
        Vector2 n = inward.Unit, t = -1 * n.Perpendicular;
        double[] u = new double[near.Length], v = new double[near.Length], w = new double[near.Length];
        for (int i = 0; i < near.Length; i++)
        {
            Vector2 d = new Vector2(near[i].Position.XMm, near[i].Position.ZMm) - at;
            double sigma = near[i].StandardUncertaintyUm / 1000;
            (u[i], v[i], w[i]) = (d.Dot(t), d.Dot(n), 1 / (sigma * sigma));
        }
        if (PolynomialFit.Of(u, v, 2, 0, w) is not { } parabola) return null;

        // Newton for the place on the parabola at height z: z(u) = z + u t.z + v(u) n.z.
        double along = 0;
        for (int k = 0; k < 20; k++)
        {
            double rise = t.Y + parabola.SlopeAt(along) * n.Y;
            if (Math.Abs(rise) < LeastSine) return null;
            double step = (along * t.Y + parabola.At(along) * n.Y) / rise;
            along -= step;
            if (Math.Abs(step) < 1e-9) break;
        }
        if (Math.Abs(along) > halfWindow) return null;
        double slope = parabola.SlopeAt(along), flank = n.X - slope * t.X;
        if (Math.Abs(flank) < LeastSine) return null;
        // v - f(u) = 0 at constant z: an f raised by δ moves x by δ / (n.x - f' t.x).
        ImmutableArray<double> raise = parabola.SensitivitiesAt(along);
        double[] sensitivities = new double[near.Length];
        for (int i = 0; i < near.Length; i++) sensitivities[i] = raise[i] * near[i].Inward.Dot(n) / flank;
        Vector2 place = at + along * t + parabola.At(along) * n;
        return new(place.X, (t.X + slope * n.X) / (t.Y + slope * n.Y), from, [.. sensitivities], Math.Max(1, parabola.ResidualSd));
    }

    /// <summary>Extent along x between the two sides at a height, with the standard uncertainty from the outline's noise (no scale), mm; null where a side is missing.</summary>
    /// <param name="outline">In its frame.</param>
    /// <param name="zMm">Height.</param>
    /// <param name="zStandardUncertaintyMm">Of the height.</param>
    /// <param name="noise">Of the outline.</param>
    public static Measured? Extent(Outline outline, double zMm, double zStandardUncertaintyMm, OutlineNoise noise)
    {
        if (At(outline, true, zMm) is not { } left || At(outline, false, zMm) is not { } right) return null;
        OutlinePoint[] points = [.. outline.Points.AsSpan().Slice(left.FirstIndex, left.Sensitivities.Length), .. outline.Points.AsSpan().Slice(right.FirstIndex, right.Sensitivities.Length)];
        double[] sensitivities = [.. left.Sensitivities.Select(s => s * left.Misfit), .. right.Sensitivities.Select(s => -s * right.Misfit)];
        double fromZ = (left.SlopeXPerZ - right.SlopeXPerZ) * zStandardUncertaintyMm;
        return new(left.XMm - right.XMm, Quadrature.Sum(noise.Propagate(points, sensitivities), fromZ));
    }
}
