using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Policies;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Decision;

/// <summary>Holds the metal lost since as-new against the limits.</summary>
internal static class WearChecks
{
    public static IEnumerable<LimitCheck[]> Of(DriftMeasurement drift, PolicyLimits limits)
    {
        (Figure width, double? station) = WorstWidthLoss(drift, limits);
        Stretch[] where = station is { } at ? [new(at, at)] : [];
        yield return LightChecks.Series(CheckedFigure.WidthLoss, width, null, where, (LimitRole.Watch, limits.WidthLossWatchPercent), (LimitRole.Retire, limits.WidthLossRetirePercent))
            .WithBudget(drift.BudgetOf("widthLossPercent", station));
        yield return LightChecks.Series(CheckedFigure.LengthLoss, LengthLossMm(drift), null, [], (LimitRole.Watch, limits.LengthLossWatchMm), (LimitRole.Retire, limits.LengthLossRetireMm))
            .WithBudget(drift.BudgetOf("lengthLossUm")?.Scale(1e-3));
        if (drift.ShapeDriftUm.Measured is not null)
            yield return LightChecks.Series(CheckedFigure.ShapeDrift, drift.ShapeDriftUm, null, [], (LimitRole.Watch, limits.ShapeDriftWatchUm), (LimitRole.Resharpen, limits.ShapeDriftResharpenUm));
    }

    /// <summary>The greatest loss at the judged stations, %, and where it is.</summary>
    /// <remarks>
    /// The narrowest place is where a blade breaks, so the greatest loss counts and not the mean. The greatest of a few noisy figures is a
    /// little too high; neighbouring stations share most of their error (registration, scale), so the excess stays below one standard uncertainty.
    /// </remarks>
    public static (Figure LossPercent, double? StationMm) WorstWidthLoss(DriftMeasurement drift, PolicyLimits limits)
    {
        StationWidthLoss[] judged = [.. drift.WidthLosses.Where(w => w.StationMm >= limits.WidthStationsFromMm - Tolerance && w.StationMm <= limits.WidthStationsToMm + Tolerance)];
        if (judged.Length == 0) return (Figure.Missing(FormattableString.Invariant($"no station from {limits.WidthStationsFromMm} to {limits.WidthStationsToMm} mm is seen in both photographs")), null);
        StationWidthLoss worst = judged.MaxBy(w => w.LossPercent.Value);
        return (worst.LossPercent, worst.StationMm);
    }

    /// <summary>Length loss in the policy's unit.</summary>
    public static Figure LengthLossMm(DriftMeasurement drift) => drift.LengthLossUm.Measured is { } um ? um.Scale(1e-3) : drift.LengthLossUm;

    private static LimitCheck[] WithBudget(this LimitCheck[] checks, UncertaintyBudget? budget) => [.. checks.Select(c => c with { Budget = budget })];

    // Stations are multiples of 0.5 mm: rounding in their last digits must not drop one.
    private const double Tolerance = 1e-6;
}
