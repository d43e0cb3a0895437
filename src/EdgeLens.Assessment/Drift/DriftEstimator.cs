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
        return Register(baseline, today, edge, curve, options).Then(r => Measure(baseline, today, edge, curve.Mapped(r.BaselineFromToday), r, options));
    }

    private static Outcome<OutlineRegistration> Register(FaceMeasurement baseline, FaceMeasurement today, BaselineEdge edge, OutlineCurve curve, DriftOptions options)
    {
        double noise = today.Outline.Points.Average(p => p.StandardUncertaintyUm) / UmPerMm;
        EdgePlace[] reference = [.. edge.Reference.Select(i => WithNoise(edge.Samples[i], Quadrature.Sum(edge.Samples[i].StandardUncertaintyMm, noise)))];
        // Both frames begin at the heel, but the heel is soft: also start from the apexes, as worn as they may be.
        double lag = edge.ApexZMm - curve.Apex().ZMm;
        Similarity[] starts = [Similarity.Identity, .. new[] { 0, -0.1, -0.3 }.Select(loss => new Similarity(1, 0, 0, lag + loss))];
        return OutlineRegistration.Find(reference, [.. edge.Reference.Select(i => edge.Offsets[i])], curve, starts,
            (map, pivot) => new EdgeErrors(baseline, today, map, pivot, options), edge.ReferenceEndZMm, options);
    }

    private static Outcome<DriftMeasurement> Measure(
        FaceMeasurement baseline, FaceMeasurement today, BaselineEdge edge, OutlineCurve now, OutlineRegistration registration, DriftOptions options)
    {
        EdgeErrors errors = new(baseline, today, registration.BaselineFromToday, registration.Pivot, options);
        double noise = today.Outline.Points.Average(p => p.StandardUncertaintyUm) / UmPerMm;
        DriftUncertainty uncertainty = new(registration, errors,
            [.. registration.Places.Select(p => WithNoise(p, noise))],
            [.. registration.Places.Select(p => WithNoise(p, Math.Sqrt(Math.Max(0, p.StandardUncertaintyMm * p.StandardUncertaintyMm - noise * noise))))],
            baseline.Scale.RelativeStandardUncertainty);
        DriftFigures figures = new(edge, now, uncertainty, options);
        return new DriftMeasurement(
            registration.BaselineFromToday, registration.ResidualMm * UmPerMm, figures.EdgeLoss(), figures.GreatestEdgeLossUm(), figures.MeanEdgeLossUm(),
            figures.WidthLosses(), figures.LengthLossUm(), figures.AreaLossPercent(), figures.ShapeDriftUm());
    }

    private static EdgePlace WithNoise(EdgePlace place, double mm) => place with { StandardUncertaintyMm = mm };
}
