using System.Collections.Immutable;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Policies;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Trend;

/// <summary>One measure of wear as an inspection found it, with the limits that it is held against: what a trend is made of and looks ahead to.</summary>
/// <param name="Measure">Name and unit.</param>
/// <param name="Loss">Against as-new; missing with its reason.</param>
/// <param name="SharedStandardUncertainty">The part that all comparisons with the same as-new photographs share, the measure's unit.</param>
/// <param name="WatchLimit">The policy's; null where it is not judged.</param>
/// <param name="RetireLimit">The policy's; null where it is not judged.</param>
public sealed record WearReading(WearMeasure Measure, Figure Loss, double SharedStandardUncertainty, double? WatchLimit, double? RetireLimit)
{
    private const double UmPerMm = 1000;

    /// <summary>The measures that have limits (width loss at its worst judged station, as the verdict judges it, and length loss), then mean edge loss and area loss.</summary>
    /// <param name="drift">Of one inspection.</param>
    /// <param name="limits">Of its family.</param>
    public static ImmutableArray<WearReading> Of(DriftMeasurement drift, PolicyLimits limits)
    {
        ArgumentNullException.ThrowIfNull(drift);
        ArgumentNullException.ThrowIfNull(limits);
        (Figure width, double? station) = WearChecks.WorstWidthLoss(drift, limits);
        return
        [
            new(new("widthLossPercent", "%"), width, Shared(drift.BudgetOf("widthLossPercent", station)), limits.WidthLossWatchPercent, limits.WidthLossRetirePercent),
            new(new("lengthLossMm", "mm"), WearChecks.LengthLossMm(drift), Shared(drift.BudgetOf("lengthLossUm")) / UmPerMm, limits.LengthLossWatchMm, limits.LengthLossRetireMm),
            new(new("meanEdgeLossUm", "µm"), drift.MeanEdgeLossUm, Shared(drift.BudgetOf("meanEdgeLossUm")), null, null),
            new(new("areaLossPercent", "%"), drift.AreaLossPercent, Shared(drift.BudgetOf("areaLossPercent")), null, null),
        ];
    }

    /// <summary>The same as an observation of a trend; null when the loss is missing.</summary>
    /// <param name="when">Moment of the inspection.</param>
    /// <param name="programVersion">That measured it.</param>
    public WearObservation? ObservedAt(DateTime when, string programVersion) => Loss.Measured is { } loss ? new(when, loss, SharedStandardUncertainty, programVersion) : null;

    private static double Shared(UncertaintyBudget? budget) => budget is null ? 0 : SharedUncertainty.Of(budget);
}
