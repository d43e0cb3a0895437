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

    // An edge can mirror a panel beside the blade when its normal points to that side within the panel's half width as a normal sees it, about 30°,
    // and a little more for scatter (measurands.md: panels stand beside the blade and fill 35 to 60°).
    private const double SideReachDeg = 35;

    // A blur that is too large by 1 px would be taken for a radius that is smaller by 2.2 px (docs/physics/edge-profile.md, table of what is assumed).
    private const double RadiusPerBlur = 2.2;

    private const string Dark = "The light does not reach this stretch of the edge: put a panel where this edge faces it, 30 to 45° above the face.";

    private const string Clipped = "The bright line is clipped: expose less, so that it just stays below white.";

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
            while (to < outline.Points.Length && outline.Points[to].ArcMm < outline.Points[from].ArcMm + EdgeLightFigures.StepMm) to++;
            int middle = (from + to) / 2;
            OutlinePoint p = outline.Points[middle];
            (Figure width, Figure radius) = Mean(trace, outline, nearest, from, to, left, right, umPerPx);
            samples.Add(new(p.ArcMm, parts[middle], stationOriginZMm - p.Position.ZMm, width, radius));
            from = to;
        }
        ImmutableArray<LightSample> all = samples.ToImmutable();
        IEnumerable<EdgePart> cutting = traits.TipCuts ? [EdgePart.Toe] : traits.HasPointedTip ? [EdgePart.Left, EdgePart.Right] : [EdgePart.Left, EdgePart.Toe, EdgePart.Right];
        EdgeLightFigures figures = new(sharpLimitUm, trace.Light.LitLevelRelativeUncertainty, trace.Light.RadiusRelativeUncertainty);
        return new(all, [.. cutting.Select(part => figures.Sum(part, [.. all.Where(s => s.Part == part)]))], $"fully lit steel, from {trace.Light.Source}") { SharpLimitUm = sharpLimitUm };
    }

    private static bool IsSeen(in EdgeTracePoint p) => p.IsLit && p.RadiusPx > SeenSigmas * p.RadiusSigmaPx;

    /// <summary>Mean over the trace points of a stretch of outline: width of the line and radius of the rounding.</summary>
    private static (Figure Width, Figure Radius) Mean(EdgeTrace trace, Outline outline, IReadOnlyList<EdgeTracePoint> nearest, int from, int to, bool left, bool right, double umPerPx)
    {
        SteelLight light = trace.Light;
        double sum = 0, variance = 0, radius = 0, radiusVariance = 0;
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
            double perRadius = light.Seen(0).BandWidth * Math.Max(0, 1 - p.FaceLevel / light.LitLevel) * umPerPx;
            double lit = p.IsLit ? p.RadiusPx : 0;
            sum += perRadius * lit;
            variance += Math.Pow(perRadius * p.RadiusSigmaPx, 2);
            radius += umPerPx * lit;
            radiusVariance += Math.Pow(umPerPx * p.RadiusSigmaPx, 2);
            count++;
            if (p.IsClipped) clipped++;
        }
        if (!faces) return (Figure.Missing(Dark), Figure.Missing(Dark));
        if (2 * clipped > count) return (Figure.Missing(Clipped), Figure.Missing(Clipped));
        // Neighbouring blocks share two thirds of their pixels: three blocks are worth one.
        double width = sum / count, mean = radius / count, blurUm = umPerPx * RadiusPerBlur * trace.BlurSigmaPx.StandardUncertainty;
        return (
            new Measured(width, Quadrature.Sum(Math.Sqrt(3 * variance) / count, width * light.LitLevelRelativeUncertainty)),
            new Measured(mean, Quadrature.Sum(Math.Sqrt(3 * radiusVariance) / count, blurUm, mean * light.RadiusRelativeUncertainty)));
    }
}
