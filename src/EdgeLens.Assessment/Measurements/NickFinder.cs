using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Measurements;

/// <summary>Finds stretches of the outline that lie more than 20 µm inside the smooth edge fitted to their surroundings (measurands.md).</summary>
/// <remarks>
/// Two passes. First a robust smooth edge slides along the outline and shows where points lie inside it; then each such stretch is left out, the smooth edge is
/// fitted to the surroundings by ordinary least squares, and depth and length are read with the uncertainty of both. A nick is what both passes see beyond
/// 20 µm, clearly (by the expanded uncertainty, ISO 14253-1); the rest is the edge's form: the end of a dull stretch, whose silhouette stands
/// back by up to 70 µm, is a step that the two smooth edges bridge differently.
/// </remarks>
public static class NickFinder
{
    /// <summary>Depth from which a gap counts (measurands.md).</summary>
    public const double LeastDepthUm = 20;

    /// <summary>Longest gap that leaves surroundings in the 1.5 mm window; a longer hollow is form, and shows as edge loss.</summary>
    public const double GreatestLengthMm = 0.75;

    /// <summary>Spacing of the first pass: a third of the shortest gap that a blurred edge can show.</summary>
    private const double StepMm = 0.03;

    /// <summary>
    /// How far the gap reaches to either side of its deepest place, in widths from there to half depth. Blurred, a nick's flank runs out like a Gaussian: at 2.5
    /// half widths 1.3 % of the depth are left. Less, and the tail drags the smooth edge in (at 1.8 a nick of 110 µm was read 15 µm too shallow).
    /// </summary>
    private const double ShoulderInHalfWidths = 2.5;

    /// <summary>Rounds of gap and smooth edge; the second moves the depth by some micrometres, the third by less than one.</summary>
    private const int GapRounds = 4;

    /// <summary>Half window of the parabola through the nick's deepest place; see <see cref="EdgeCrossing.HalfWindowMm"/>, halved because a nick's ground is rounder.</summary>
    private const double GroundHalfWindowMm = 0.05;

    /// <summary>A block of edge over the correlation length of its errors (blocks that overlap like a triangle: exp(-½ (d / c)²) falls to a fifth at its base).</summary>
    private const double BlockLengths = 1.8;

    /// <summary>A gap, by outline indices.</summary>
    /// <param name="From">First point of the gap as left out of the fit.</param>
    /// <param name="To">Last point.</param>
    /// <param name="Deepest">The point nearest to the deepest place.</param>
    /// <param name="DepthUm">Without the scale's uncertainty.</param>
    /// <param name="LengthMm">Where it is deeper than <see cref="LeastDepthUm"/>, without the scale's uncertainty.</param>
    /// <param name="Filled">Places of the smooth edge for the points From to To.</param>
    internal readonly record struct Gap(int From, int To, int Deepest, Measured DepthUm, Measured LengthMm, ImmutableArray<Vector2> Filled);

    /// <summary>All gaps of the outline in its order, whether the edge cuts there or not.</summary>
    /// <param name="outline">In its frame.</param>
    /// <param name="reachMm">How far from the apex along the outline to look.</param>
    /// <param name="noise">How the points' errors hang together.</param>
    internal static ImmutableArray<Gap> Find(Outline outline, double reachMm, OutlineNoise noise)
    {
        double[] depth = FirstPass(outline, reachMm);
        ImmutableArray<Gap>.Builder gaps = ImmutableArray.CreateBuilder<Gap>();
        for (int i = 0; i < depth.Length; i++)
        {
            if (depth[i] < LeastDepthUm / 1000 / 2) continue;
            int from = i;
            while (i + 1 < depth.Length && depth[i + 1] >= LeastDepthUm / 1000 / 2) i++;
            if (Measure(outline, noise, depth, from, i) is { } gap) gaps.Add(gap);
        }
        return gaps.ToImmutable();
    }

    /// <summary>The outline with its gaps filled by the smooth edge: point by point the same places otherwise.</summary>
    internal static Outline Fill(Outline outline, ImmutableArray<Gap> gaps)
    {
        if (gaps.IsEmpty) return outline;
        Vector2[] places = [.. outline.Points.Select(p => new Vector2(p.Position.XMm, p.Position.ZMm))];
        foreach (Gap gap in gaps) gap.Filled.CopyTo(places, gap.From);
        return OutlineBuilder.Build(places, [.. outline.Points.Select(p => p.StandardUncertaintyUm)], outline.BladeFromCard);
    }

    /// <summary>Depth of every point below the robust smooth edge, mm; 0 where there is none.</summary>
    internal static double[] FirstPass(Outline outline, double reachMm)
    {
        double[] depth = new double[outline.Points.Length];
        int last = -1;
        for (int i = 0; i < depth.Length; i++)
        {
            if (Math.Abs(outline.Points[i].ArcMm - outline.Apex.ArcMm) > reachMm) continue;
            if (last >= 0 && outline.Points[i].ArcMm - outline.Points[last].ArcMm < StepMm && i < depth.Length - 1) continue;
            if (SmoothEdge.Around(outline, i) is { } edge && edge.FitRobustly() is { } fit)
                depth[i] = (edge.Depth[edge.Index] - fit.At(0)) / Math.Sqrt(1 + fit.SlopeAt(0) * fit.SlopeAt(0));
            // Between two places of the first pass the depth runs straight.
            for (int k = last + 1; k < i && last >= 0; k++)
            {
                double t = (outline.Points[k].ArcMm - outline.Points[last].ArcMm) / (outline.Points[i].ArcMm - outline.Points[last].ArcMm);
                depth[k] = depth[last] + t * (depth[i] - depth[last]);
            }
            last = i;
        }
        return depth;
    }

    /// <summary>
    /// By how much the deepest place is read too shallow: a place of the outline is a mean over a block of edge, here taken as even over 1.8 correlation lengths (its
    /// variance is that length squared over 12), and a mean of a ground of curvature κ lies half κ times the variance above its deepest place. Good to half of itself.
    /// </summary>
    private static double Flattened(PolynomialFit ground, double at, OutlineNoise noise)
    {
        double curvature = (ground.SlopeAt(at - GroundHalfWindowMm) - ground.SlopeAt(at + GroundHalfWindowMm)) / (2 * GroundHalfWindowMm);
        return Math.Max(0, 0.5 * curvature * Math.Pow(BlockLengths * noise.CorrelationMm, 2) / 12);
    }

    private static Gap? Measure(Outline outline, OutlineNoise noise, double[] firstPass, int from, int to)
    {
        ReadOnlySpan<OutlinePoint> points = outline.Points.AsSpan();
        int middle = from + MemoryExtensions.IndexOf(firstPass.AsSpan()[from..(to + 1)], firstPass[from..(to + 1)].Max());
        double firstDepthMm = firstPass[middle];
        if (SmoothEdge.Around(outline, middle) is not { } window) return null;
        int a = from - window.FirstIndex, b = to - window.FirstIndex, deepest = 0;
        PolynomialFit? edge = null;
        for (int round = 0; round < GapRounds; round++)
        {
            if (a <= 0 || b >= window.Along.Length - 1 || window.Along[b] - window.Along[a] > GreatestLengthMm) return null;
            edge = window.FitWithout(window.FirstIndex + a, window.FirstIndex + b);
            if (edge is null) return null;
            deepest = a;
            for (int i = a; i <= b; i++)
                if (Depth(i) > Depth(deepest)) deepest = i;
            (a, b) = (Shoulder(-1), Shoulder(1));
        }

        int g0 = deepest, g1 = deepest;
        while (g0 > 0 && window.Along[deepest] - window.Along[g0 - 1] <= GroundHalfWindowMm) g0--;
        while (g1 < window.Along.Length - 1 && window.Along[g1 + 1] - window.Along[deepest] <= GroundHalfWindowMm) g1++;
        double[] u = window.Along[g0..(g1 + 1)], d = [.. Enumerable.Range(g0, g1 - g0 + 1).Select(Depth)];
        if (PolynomialFit.Of(u, d, 2, window.Along[deepest]) is not { } ground) return null;
        double depthMm = ground.At(window.Along[deepest]);

        // Depth = ground - smooth edge: both are linear in the points.
        double[] sensitivities = [.. edge!.SensitivitiesAt(window.Along[deepest]).Select(s => -s * Math.Max(1, edge.ResidualSd))];
        ImmutableArray<double> raise = ground.SensitivitiesAt(window.Along[deepest]);
        for (int i = g0; i <= g1; i++) sensitivities[i] += raise[i - g0];
        if (window.FitWithout(window.FirstIndex + a, window.FirstIndex + b, SmoothEdge.PlainDegree) is not { } plain) return null;
        double plainDepthMm = depthMm + (edge!.At(window.Along[deepest]) - plain.At(window.Along[deepest])) / Math.Sqrt(1 + Math.Pow(edge.SlopeAt(window.Along[deepest]), 2));
        double noiseSd = noise.Propagate(points.Slice(window.FirstIndex, sensitivities.Length), sensitivities);
        const double limit = LeastDepthUm / 1000;
        // Two smooth edges are two fair readings of "fitted to its surroundings": between them lies the definition's own uncertainty.
        double depthSd = Quadrature.Sum(noiseSd, Quadrature.FromLimits(depthMm - plainDepthMm));
        if (Math.Min(Math.Min(depthMm, plainDepthMm), firstDepthMm) - Measured.CoverageFactor * depthSd < limit) return null;
        double flattenedMm = Flattened(ground, window.Along[deepest], noise);
        depthMm += flattenedMm;
        depthSd = Quadrature.Sum(depthSd, flattenedMm / 2);
        if (CrossingOf(-1) is not { } begin || CrossingOf(1) is not { } end) return null;
        double lengthSd = Quadrature.Sum(depthSd / begin.Slope, depthSd / end.Slope);
        return new(window.FirstIndex + a, window.FirstIndex + b, window.FirstIndex + deepest, new Measured(depthMm, depthSd).Scale(1000), new(end.Along - begin.Along, lengthSd),
            [.. Enumerable.Range(a, b - a + 1).Select(i => window.At(window.Along[i], edge.At(window.Along[i])))]);

        double Depth(int i) => (window.Depth[i] - edge!.At(window.Along[i])) / Math.Sqrt(1 + Math.Pow(edge.SlopeAt(window.Along[i]), 2));

        int Shoulder(int direction)
        {
            int i = deepest;
            while (i + direction > 0 && i + direction < window.Along.Length - 1 && Depth(i) > 0.5 * Depth(deepest)) i += direction;
            double reach = ShoulderInHalfWidths * Math.Abs(window.Along[i] - window.Along[deepest]);
            while (i + direction >= 0 && i + direction < window.Along.Length && Math.Abs(window.Along[i] - window.Along[deepest]) < reach) i += direction;
            return i;
        }

        // Where the depth falls below the limit, going away from the deepest place, with the slope over the blurred flank.
        (double Along, double Slope)? CrossingOf(int direction)
        {
            for (int i = deepest; i + direction >= 0 && i + direction < window.Along.Length; i += direction)
            {
                double here = Depth(i), next = Depth(i + direction);
                if (next >= limit) continue;
                double t = (here - limit) / (here - next), place = window.Along[i] + t * (window.Along[i + direction] - window.Along[i]);
                double run = Math.Abs(place - window.Along[deepest]);
                return (place, Math.Max((depthMm - limit) / Math.Max(run, 1e-3), 1e-3));
            }
            return null;
        }
    }
}
