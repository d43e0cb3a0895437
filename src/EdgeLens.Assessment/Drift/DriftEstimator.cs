using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Drift;

/// <summary>Compares today's outline with the as-new baseline of the same working end (measurands.md, drift).</summary>
public static class DriftEstimator
{
    private const double UmPerMm = 1000;

    /// <summary>Registers today's outline on what does not wear and measures what is gone.</summary>
    /// <param name="baseline">As new; its frame has z = 0 at the heel. Its outline should go on behind the heel along the shank's root.</param>
    /// <param name="today">The same working end later, in its own frame (heel within about half a millimetre).</param>
    /// <param name="options">Assumptions; null for the documented ones.</param>
    /// <returns>The drift in the baseline's frame, or a refusal: another family, too little of the heel seen, or a heel that does not fit.</returns>
    public static Outcome<DriftMeasurement> Estimate(FaceMeasurement baseline, FaceMeasurement today, DriftOptions? options = null)
    {
        options ??= DriftOptions.Default;
        if (baseline.Family != today.Family)
            return new Refusal("other-family", $"The as-new photograph shows a {FamilyTraits.Of(baseline.Family).Title}, today's a {FamilyTraits.Of(today.Family).Title}.",
                "Compare photographs of the same working end.");
        FamilyTraits traits = FamilyTraits.Of(baseline.Family);
        BaselineEdge edge = BaselineEdge.Of(baseline, traits, options);
        OutlineCurve curve = OutlineCurve.Of(today.Outline);
        return Register(baseline, today, edge, curve, options).TryGet(out OutlineRegistration? registration, out Refusal? refusal)
            ? Measure(edge, curve.Mapped(registration.BaselineFromToday), registration, baseline.Scale.RelativeStandardUncertainty, options)
            : refusal;
    }

    private static Outcome<OutlineRegistration> Register(FaceMeasurement baseline, FaceMeasurement today, BaselineEdge edge, OutlineCurve curve, DriftOptions options)
    {
        // What today's noise is at a place is known when the outlines lie on each other; its mean will do until then.
        double noise = today.Outline.Points.Average(p => p.StandardUncertaintyUm) / UmPerMm;
        EdgePlace[] places = [.. edge.Reference.Select(i => edge.Samples[i])];
        if (places.Length == 0) return new Refusal("reference-not-seen", "The as-new outline has no heel.", "Retake the as-new photograph with the whole blade in the window.");
        Vector2 pivot = 1.0 / places.Length * places.Aggregate(new Vector2(0, 0), (sum, p) => sum + p.Position);
        ReferenceErrors reference = ReferenceErrors.Of(
            new(places, new(baseline.Outline.Noise)), new([.. places.Select(p => p with { StandardUncertaintyMm = noise })], new(today.Outline.Noise)),
            new EdgeErrors(baseline, today, Similarity.Identity, pivot, edge.ReferenceEndZMm, options), FaceEndOf(baseline, today));
        // Both frames begin at the heel, but the heel is soft: also start from the apexes, as worn as they may be.
        double lag = edge.ApexZMm - curve.ApexZMm;
        Similarity[] starts = [Similarity.Identity, .. new[] { 0, -0.1, -0.3 }.Select(loss => new Similarity(1, 0, 0, lag + loss))];
        return OutlineRegistration.Find(reference, [.. edge.Reference.Select(i => edge.Offsets[i])], curve, starts, Unlikely, options);

        // A blade does not grow, and it is rarely shortened by more than half a millimetre between as-new and retirement.
        double Unlikely(Similarity map)
        {
            double loss = edge.ApexZMm - map.Apply(curve.Line.At(curve.ApexArcMm)).Y;
            return Math.Pow(loss / (loss < 0 ? 0.05 : 0.5), 2);
        }
    }

    private static FaceEnd? FaceEndOf(FaceMeasurement baseline, FaceMeasurement today) => baseline.FaceEndZMm is { } then && today.FaceEndZMm is { } now
        ? new(new(0, new(0, then.Value), new(0, 1), then.StandardUncertainty), now.Value, Quadrature.Sum(then.StandardUncertainty, now.StandardUncertainty))
        : null;

    private static DriftMeasurement Measure(BaselineEdge edge, OutlineCurve now, OutlineRegistration registration, double baselineScale, DriftOptions options)
    {
        DriftFigures figures = new(edge, now, new DriftUncertainty(registration, baselineScale), options);
        return new(
            registration.BaselineFromToday, registration.ResidualMm * UmPerMm, figures.EdgeLoss(), figures.GreatestEdgeLossUm(), figures.MeanEdgeLossUm(),
            figures.WidthLosses(), figures.LengthLossUm(), figures.AreaLossPercent(), figures.ShapeDriftUm())
        {
            Budgets = figures.Budgets,
        };
    }
}
