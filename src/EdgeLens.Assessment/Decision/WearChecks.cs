using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Policies;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Decision;

/// <summary>Holds the metal lost since as-new against the limits.</summary>
internal static class WearChecks
{
    public static IEnumerable<LimitCheck[]> Of(DriftMeasurement drift, PolicyLimits limits)
    {
        // The narrowest place is where a blade breaks, so the greatest loss counts and not the mean. The greatest of a few noisy figures is a
        // little too high; neighbouring stations share most of their error (registration, scale), so the excess stays below one standard uncertainty.
        StationWidthLoss[] judged = [.. drift.WidthLosses.Where(w => w.StationMm >= limits.WidthStationsFromMm - Tolerance && w.StationMm <= limits.WidthStationsToMm + Tolerance)];
        Figure width = judged.Length > 0
            ? judged.MaxBy(w => w.LossPercent.Value).LossPercent
            : Figure.Missing(FormattableString.Invariant($"no station from {limits.WidthStationsFromMm} to {limits.WidthStationsToMm} mm is seen in both photographs"));
        Stretch[] where = judged.Length > 0 ? [At(judged.MaxBy(w => w.LossPercent.Value).StationMm)] : [];
        yield return LightChecks.Series(CheckedFigure.WidthLoss, width, null, where, (LimitRole.Watch, limits.WidthLossWatchPercent), (LimitRole.Retire, limits.WidthLossRetirePercent));

        Figure length = drift.LengthLossUm.Measured is { } um ? um.Scale(1e-3) : drift.LengthLossUm;
        yield return LightChecks.Series(CheckedFigure.LengthLoss, length, null, [], (LimitRole.Watch, limits.LengthLossWatchMm), (LimitRole.Retire, limits.LengthLossRetireMm));
    }

    // Stations are multiples of 0.5 mm: rounding in their last digits must not drop one.
    private const double Tolerance = 1e-6;

    private static Stretch At(double stationMm) => new(stationMm, stationMm);
}
