using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Drift;

/// <summary>Several as-new photographs of one working end, made into one baseline.</summary>
/// <param name="Mean">In the first photograph's frame: its light, nicks and quality, the mean outline, and the figures of that.</param>
/// <param name="Count">Photographs in the mean.</param>
/// <param name="ScatterUm">Root mean square departure of a single outline from the mean, laid on each other; missing for one photograph. What differs between photographs of the same steel.</param>
/// <param name="LeftOut">Why photographs could not be laid on the first.</param>
public sealed record BaselineAverage(FaceMeasurement Mean, int Count, Figure ScatterUm, ImmutableArray<Refusal> LeftOut)
{
    private const double UmPerMm = 1000;

    // Outlines of one working end as-new lie within this of each other once registered; farther off, another part of the outline was hit.
    private const double ReachMm = 0.2;

    /// <summary>Averages.</summary>
    /// <param name="photographs">At least one, all as-new, laid in again for each: photographs without laying in again share their errors, and the mean would look better than it is.</param>
    /// <param name="options">Of the registration; null for the documented ones.</param>
    /// <remarks>
    /// Each further outline is registered to the first, on all of it. The mean of n has 1/√n of the noise and of the light on the edge. Its scale is the first
    /// photograph's, because the registration gives the others that scale: nothing is gained there, and nothing claimed. A place that some don't show is the mean of the others.
    /// </remarks>
    public static BaselineAverage Of(ImmutableArray<FaceMeasurement> photographs, DriftOptions? options = null)
    {
        if (photographs.IsDefaultOrEmpty) throw new ArgumentException("A baseline needs a photograph.", nameof(photographs));
        options ??= DriftOptions.Default;
        // Nothing has worn between as-new photographs: the whole outline is reference, not only the heel quarter, whose noise a registration carries to the toe threefold.
        options = options with { ReferenceShare = 1, TipCuttingReferenceShare = 1, WearAtReferenceEndUm = 0 };
        FaceMeasurement first = photographs[0];
        List<PlaneCurve> others = [];
        List<Refusal> leftOut = [];
        foreach (FaceMeasurement other in photographs.Skip(1))
            if (DriftEstimator.Estimate(first, other, options).TryGet(out DriftMeasurement? drift, out Refusal? refusal)) others.Add(OutlineCurve.Of(other.Outline).Line.Mapped(drift.BaselineFromToday));
            else leftOut.Add(refusal);
        if (others.Count == 0) return new(first, 1, Figure.Missing("There is one photograph only."), [.. leftOut]);

        int n = others.Count + 1;
        double squares = 0, count = 0;
        PlaneCurve own = OutlineCurve.Of(first.Outline).Line;
        ImmutableArray<OutlinePoint> points = [.. first.Outline.Points.Select(Averaged)];
        Outline outline = first.Outline with
        {
            Points = points,
            Noise = first.Outline.Noise with { SystematicSdUm = first.Outline.Noise.SystematicSdUm / Math.Sqrt(n) },
        };
        FaceFigures figures = FaceFigures.Measure(outline, FamilyTraits.Of(first.Family), first.Scale.RelativeStandardUncertainty, null, outline.Noise);
        FaceMeasurement mean = first with
        {
            Outline = outline,
            Widths = figures.Widths,
            StationOriginZMm = figures.ApexZMm.Value,
            ToeRadiusUm = figures.ToeRadiusUm,
            TipWidthUm = figures.TipWidthUm,
            TipArcRadiusMm = figures.TipArcRadiusMm,
        };
        // Departures from the mean of n are smaller than from the truth by √(1 - 1/n); the scatter's own uncertainty: a millimetre of edge counts as one independent place.
        double scatter = Math.Sqrt(squares / count * n / (n - 1)) * UmPerMm, freedom = Math.Max(1, (n - 1) * first.Outline.Points[^1].ArcMm);
        return new(mean, n, new Measured(scatter, scatter / Math.Sqrt(2 * freedom)), [.. leftOut]);

        OutlinePoint Averaged(OutlinePoint p)
        {
            Vector2 place = new(p.Position.XMm, p.Position.ZMm);
            // The first outline's own averaged place, so that its pixel noise does not count as a departure of the others.
            double zero = own.SmoothCrossing(place, p.Inward, ReachMm, options.HalfWindowMm)?.Distance ?? 0;
            double[] distances = [zero, .. others.Select(o => o.SmoothCrossing(place, p.Inward, ReachMm, options.HalfWindowMm)?.Distance).OfType<double>()];
            double shift = distances.Average();
            if (distances.Length == n)
            {
                squares += distances.Sum(d => (d - shift) * (d - shift)) / n;
                count++;
            }
            return p with { Position = new(place.X + shift * p.Inward.X, place.Y + shift * p.Inward.Y), StandardUncertaintyUm = p.StandardUncertaintyUm / Math.Sqrt(distances.Length) };
        }
    }
}
