using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Edges;

namespace EdgeLens.Measuring.FaceView;

/// <summary>
/// The light reflected along the edges: equivalent width of the bright line, its excess over the face integrated across the edge and divided by the level
/// of fully lit steel. The fit's band of width κ r and height A - F has the integral κ r (A - F), whatever the blur.
/// </summary>
internal static class EdgeLightMeter
{
    // Samples as far apart as the edge loss's (measurands.md: per 0.05 mm of arc).
    private const double StepMm = 0.05;

    // A line counts as seen from three standard deviations on.
    private const double SeenSigmas = 3;

    // An edge can mirror a panel beside the blade when its normal points to that side within the panel's half width as a normal sees it, about 30°,
    // and a little more for scatter (measurands.md: panels stand beside the blade and fill 35 to 60°).
    private const double SideReachDeg = 35;

    // A dull stretch shorter than this is a scratch or noise.
    private const double LeastStretchMm = 0.2;

    private const string Dark = "The light does not reach this stretch of the edge: put a panel where this edge faces it, 30 to 45° above the face.";

    /// <summary>Whether the line is seen along most of a side: left, right.</summary>
    public static (bool Left, bool Right) LitSides(EdgeTrace trace, Outline outline, IReadOnlyList<EdgeTracePoint> nearest)
    {
        return (IsLit(1), IsLit(-1));

        bool IsLit(int side)
        {
            int seen = 0, all = 0;
            for (int i = 0; i < outline.Points.Length; i++)
            {
                if (outline.Points[i].Inward.X * side > -Math.Cos(SideReachDeg * Math.PI / 180)) continue;
                all++;
                if (IsSeen(nearest[i])) seen++;
            }
            return all > 0 && seen > all / 2;
        }
    }

    /// <summary>Measures the light.</summary>
    /// <param name="trace">In the photograph.</param>
    /// <param name="outline">The same edge in its frame.</param>
    /// <param name="nearest">For each outline point the trace point it came from.</param>
    /// <param name="parts">For each outline point its part.</param>
    /// <param name="stationOriginZMm">Origin of stations.</param>
    /// <param name="traits">Decides which parts cut.</param>
    /// <param name="umPerPx">At the blade.</param>
    /// <param name="sharpLimitUm">From which an edge counts as reflecting.</param>
    public static EdgeLight Measure(
        EdgeTrace trace, Outline outline, IReadOnlyList<EdgeTracePoint> nearest, ImmutableArray<EdgePart> parts, double stationOriginZMm, FamilyTraits traits, double umPerPx, double sharpLimitUm)
    {
        (bool left, bool right) = LitSides(trace, outline, nearest);
        ImmutableArray<LightSample>.Builder samples = ImmutableArray.CreateBuilder<LightSample>();
        for (int from = 0; from < outline.Points.Length;)
        {
            int to = from;
            while (to < outline.Points.Length && outline.Points[to].ArcMm < outline.Points[from].ArcMm + StepMm) to++;
            int middle = (from + to) / 2;
            OutlinePoint p = outline.Points[middle];
            samples.Add(new(p.ArcMm, parts[middle], stationOriginZMm - p.Position.ZMm, Width(trace, outline, nearest, from, to, left, right, umPerPx)));
            from = to;
        }
        ImmutableArray<LightSample> all = samples.ToImmutable();
        IEnumerable<EdgePart> cutting = traits.TipCuts ? [EdgePart.Toe] : traits.HasPointedTip ? [EdgePart.Left, EdgePart.Right] : [EdgePart.Left, EdgePart.Toe, EdgePart.Right];
        return new(all, [.. cutting.Select(part => Sum(part, [.. all.Where(s => s.Part == part)], sharpLimitUm))], $"fully lit steel, from {trace.Light.Source}") { SharpLimitUm = sharpLimitUm };
    }

    private static bool IsSeen(in EdgeTracePoint p) => p.IsLit && p.RadiusPx > SeenSigmas * p.RadiusSigmaPx;

    private static Figure Width(EdgeTrace trace, Outline outline, IReadOnlyList<EdgeTracePoint> nearest, int from, int to, bool left, bool right, double umPerPx)
    {
        double sum = 0, variance = 0;
        int count = 0, clipped = 0;
        EdgeTracePoint? last = null;
        bool faces = false;
        for (int i = from; i < to; i++)
        {
            EdgeTracePoint p = nearest[i];
            double x = outline.Points[i].Inward.X, reach = Math.Cos(SideReachDeg * Math.PI / 180);
            faces |= (left && x < -reach) || (right && x > reach) || IsSeen(p);
            if (last is { } q && q.Equals(p)) continue;
            last = p;
            RoundingLight light = trace.Light.Seen(0);
            double perRadius = light.BandWidth * Math.Max(0, 1 - p.FaceLevel / trace.Light.LitLevel) * umPerPx;
            sum += perRadius * (p.IsLit ? p.RadiusPx : 0);
            variance += Math.Pow(perRadius * p.RadiusSigmaPx, 2);
            count++;
            if (p.IsClipped) clipped++;
        }
        if (!faces) return Figure.Missing(Dark);
        if (2 * clipped > count) return Figure.Missing("The bright line is clipped: expose less, so that it just stays below white.");
        double width = sum / count;
        // Neighbouring blocks share two thirds of their pixels: three blocks are worth one.
        return new Measured(width, Quadrature.Sum(Math.Sqrt(3 * variance) / count, width * trace.Light.LitLevelRelativeUncertainty));
    }

    private static EdgeLightSummary Sum(EdgePart part, ImmutableArray<LightSample> samples, double sharpLimitUm)
    {
        LightSample[] seen = [.. samples.Where(s => s.ReflectionWidthUm.Measured is not null)];
        if (samples.IsEmpty || 2 * seen.Length < samples.Length)
        {
            string why = samples.FirstOrDefault(s => s.ReflectionWidthUm.Measured is null)?.ReflectionWidthUm.WhyMissing ?? "This part of the edge is not in the photograph.";
            return new(part, Figure.Missing(why), Figure.Missing(why), []);
        }
        // A sample counts by the probability that its true width is above the limit, so that noise about the limit does not tip the share.
        // A stretch begins and ends somewhere in a sample: two errors that are even over ± half a sample, variance 1/12 each.
        double share = 0, variance = 2.0 / 12;
        foreach (LightSample s in seen)
        {
            Measured w = s.ReflectionWidthUm.Measured!.Value;
            double p = GaussianStep.At((w.Value - sharpLimitUm) / Math.Max(w.StandardUncertainty, 1e-6));
            share += p;
            variance += p * (1 - p);
        }
        Measured fraction = new(100 * share / seen.Length, 100 * Math.Sqrt(variance) / seen.Length);
        return new(part, fraction, Greatest(seen), Stretches(seen, sharpLimitUm));
    }

    /// <summary>Greatest mean over 0.5 mm of edge: one scratch does not make an edge dull.</summary>
    private static Measured Greatest(LightSample[] seen)
    {
        int window = Math.Min(seen.Length, (int)Math.Round(0.5 / StepMm));
        Measured greatest = default;
        for (int i = 0; i + window <= seen.Length; i++)
        {
            Measured mean = Mean(seen.AsSpan(i, window));
            if (i == 0 || mean.Value > greatest.Value) greatest = mean;
        }
        return greatest;
    }

    private static Measured Mean(ReadOnlySpan<LightSample> samples)
    {
        double sum = 0, sigma = 0;
        foreach (LightSample s in samples)
        {
            sum += s.ReflectionWidthUm.Measured!.Value.Value;
            sigma += s.ReflectionWidthUm.Measured!.Value.StandardUncertainty;
        }
        // The lit level's part is common to all samples and dominates where the line is wide: uncertainties are averaged, not divided by the root.
        return new(sum / samples.Length, sigma / samples.Length);
    }

    private static ImmutableArray<DullStretch> Stretches(LightSample[] seen, double sharpLimitUm)
    {
        ImmutableArray<DullStretch>.Builder stretches = ImmutableArray.CreateBuilder<DullStretch>();
        for (int i = 0; i < seen.Length; i++)
        {
            int from = i;
            while (i < seen.Length && seen[i].ReflectionWidthUm.Measured!.Value.Value > sharpLimitUm && (i == from || seen[i].ArcMm - seen[i - 1].ArcMm < 2.5 * StepMm)) i++;
            if (i == from || seen[i - 1].ArcMm - seen[from].ArcMm < LeastStretchMm - StepMm) continue;
            LightSample[] stretch = seen[from..i];
            stretches.Add(new(stretch.Min(s => s.StationMm), stretch.Max(s => s.StationMm), stretch.Select(s => s.ReflectionWidthUm.Measured!.Value).MaxBy(w => w.Value)));
        }
        return stretches.ToImmutable();
    }
}
