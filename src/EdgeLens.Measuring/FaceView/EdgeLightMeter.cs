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
    // A line counts as seen from three standard deviations on.
    private const double SeenSigmas = 3;

    // A blur that is too large by 1 px would be taken for a radius that is smaller by 2.2 px (docs/physics/edge-profile.md, table of what is assumed).
    private const double RadiusPerBlur = 2.2;

    // What sharpening and the model's form leave, px: 0.1 too little in the amount of sharpening is taken for 0.09 to 0.12 px of radius (same table).
    private const double ModelRadiusPx = 0.1;

    private const string Dark = "The light does not reach this stretch of the edge: put a panel where this edge faces it, 30 to 45° above the face.";

    private const string InPart =
        "The light may reach this stretch in part only, so that it may be rounder than its line tells: put a panel where this edge faces it, 30 to 45° above the face.";

    private const string Clipped = "The bright line is clipped: expose less, so that it just stays below white.";

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
        ImmutableArray<LightSample>.Builder samples = ImmutableArray.CreateBuilder<LightSample>();
        for (int from = 0; from < outline.Points.Length;)
        {
            int to = from;
            while (to < outline.Points.Length && outline.Points[to].ArcMm < outline.Points[from].ArcMm + EdgeLightFigures.StepMm) to++;
            int middle = (from + to) / 2;
            OutlinePoint p = outline.Points[middle];
            (Figure width, Figure radius) = Mean(trace, nearest, from, to, umPerPx);
            samples.Add(new(p.ArcMm, parts[middle], stationOriginZMm - p.Position.ZMm, width, radius));
            from = to;
        }
        ImmutableArray<LightSample> all = samples.ToImmutable();
        IEnumerable<EdgePart> cutting = traits.TipCuts ? [EdgePart.Toe] : traits.HasPointedTip ? [EdgePart.Left, EdgePart.Right] : [EdgePart.Left, EdgePart.Toe, EdgePart.Right];
        EdgeLightFigures figures = new(sharpLimitUm, trace.Light.Panels.Max(p => p.Light.LitLevelRelativeUncertainty), trace.Light.Panels.Max(p => p.Light.RadiusRelativeUncertainty));
        return new(all, [.. cutting.Select(part => figures.Sum(part, [.. all.Where(s => s.Part == part)]))], $"fully lit steel, from {trace.Light.Panels[0].Light.Source}") { SharpLimitUm = sharpLimitUm };
    }

    private static bool IsSeen(in EdgeTracePoint p) => p.IsLit && p.RadiusPx > SeenSigmas * p.RadiusSigmaPx;

    /// <summary>Mean over the trace points of a stretch of outline: width of the line and radius of the rounding.</summary>
    private static (Figure Width, Figure Radius) Mean(EdgeTrace trace, IReadOnlyList<EdgeTracePoint> nearest, int from, int to, double umPerPx)
    {
        SteelLight light = trace.Light.Facing(nearest[(from + to) / 2].Outward).Light;
        Exposure exposure = trace.Light.ExposureOf(nearest[(from + to) / 2].Outward);
        double bandWidth = light.Seen(0).BandWidth, sum = 0, variance = 0, radius = 0, radiusVariance = 0;
        int count = 0, clipped = 0, seen = 0;
        EdgeTracePoint? last = null;
        for (int i = from; i < to; i++)
        {
            EdgeTracePoint p = nearest[i];
            if (last is { } q && q.Equals(p)) continue;
            last = p;
            double perRadius = bandWidth * Math.Max(0, 1 - p.FaceLevel / light.LitLevel) * umPerPx;
            double lit = p.IsLit ? p.RadiusPx : 0;
            sum += perRadius * lit;
            variance += Math.Pow(perRadius * p.RadiusSigmaPx, 2);
            radius += umPerPx * lit;
            radiusVariance += Math.Pow(umPerPx * p.RadiusSigmaPx, 2);
            count++;
            if (p.IsClipped) clipped++;
            if (IsSeen(p)) seen++;
        }
        if (exposure == Exposure.None || (exposure == Exposure.Partial && 2 * seen <= count)) return (Figure.Missing(Dark), Figure.Missing(Dark));
        if (2 * clipped > count) return (Figure.Missing(Clipped), Figure.Missing(Clipped));
        // Neighbouring blocks share two thirds of their pixels: three blocks are worth one.
        double width = sum / count, mean = radius / count, blurUm = umPerPx * RadiusPerBlur * trace.BlurSigmaPx.StandardUncertainty;
        Figure ofRadius = new Measured(mean, Quadrature.Sum(Math.Sqrt(3 * radiusVariance) / count, blurUm, ModelRadiusPx * umPerPx, mean * light.RadiusRelativeUncertainty));
        return (
            new Measured(width, Quadrature.Sum(Math.Sqrt(3 * variance) / count, width * light.LitLevelRelativeUncertainty)),
            exposure == Exposure.Full ? ofRadius : Figure.Missing(InPart));
    }
}
