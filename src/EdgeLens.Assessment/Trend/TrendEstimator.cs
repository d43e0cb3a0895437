using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Trend;

/// <summary>From the inspections of a working end to its trend.</summary>
public static class TrendEstimator
{
    /// <summary>Estimates how fast metal is lost.</summary>
    /// <param name="history">Inspections, uses and sharpenings since as-new.</param>
    /// <param name="options">Assumptions; null for the documented ones.</param>
    /// <returns>
    /// The trend, or a refusal: <c>trend-too-few-points</c> (how many there are and are needed), <c>trend-mixed-versions</c> (measured by several program versions not
    /// declared to agree), <c>trend-inconsistent</c> (inspections with nothing between them differ too much), <c>trend-no-exposure</c> (all inspections lie before the first use, sharpening and day).
    /// </returns>
    /// <exception cref="ArgumentException">An inspection lies before as-new, or its uncertainty is 0 or below the shared part.</exception>
    public static Outcome<WearTrend> Estimate(WearHistory history, TrendOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(history);
        options ??= TrendOptions.Default;
        ImmutableArray<WearObservation> observations = [.. history.Inspections.OrderBy(o => o.When).ThenBy(o => o.Loss.Value)];
        foreach (WearObservation o in observations) Check(o, history);
        if (observations.Length < options.FewestInspections)
            return new Refusal("trend-too-few-points", "There are too few inspections after as-new for a trend.", "Inspect again after the next sharpenings.", observations.Length, options.FewestInspections, "inspections");
        string[] versions = [.. observations.Select(o => o.ProgramVersion).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        if (versions.Length > 1 && versions.Except(options.VersionsThatAgree, StringComparer.Ordinal).Any())
            return new Refusal("trend-mixed-versions", $"The inspections were measured by different versions of the program ({string.Join(", ", versions)}).",
                "Measure the kept photographs again with one version.");

        ImmutableArray<Exposure> exposures = [.. observations.Select(o => Exposure.At(history, o.When, options))];
        List<string> remarks = versions.Length > 1 ? [$"Versions {string.Join(", ", versions)} stand together because they were declared to agree."] : [];
        Refusal? inconsistent = null;
        foreach (ImmutableArray<WearDriver> drivers in Choices(exposures, observations.Length, remarks))
        {
            if (!WearModel.Fit(exposures, observations, drivers).TryGet(out WearModel? model, out Refusal? refusal))
            {
                if (refusal.Code == "trend-inconsistent") inconsistent = refusal;
                continue;
            }
            if (drivers is [WearDriver.Sharpening] && exposures.Any(e => e.Procedures > 0))
                remarks.Add("Uses and sharpenings went side by side, or the inspections are too few: what is lost by a sharpening includes what is lost by the uses before it.");
            if (model.DegreesOfFreedom < options.FewestStrongDegreesOfFreedom)
                remarks.Add(FormattableString.Invariant($"This trend is weak: {observations.Length} inspections for {drivers.Length} {(drivers.Length == 1 ? "rate" : "rates")}. Every further one narrows it much."));
            return new WearTrend(history, options, model, observations, exposures, [.. remarks]);
        }
        return inconsistent ?? new Refusal("trend-no-exposure", "No use, sharpening or time lies between as-new and the inspections.", "Log uses and sharpenings, and inspect again later.");
    }

    // The richest model first. Both rates need two inspections more than there are rates: otherwise the one takes up the other's noise.
    private static IEnumerable<ImmutableArray<WearDriver>> Choices(ImmutableArray<Exposure> exposures, int inspections, List<string> remarks)
    {
        bool sharpened = exposures.Any(e => e.Sharpenings > 0), used = exposures.Any(e => e.Procedures > 0);
        if (!sharpened && !used) remarks.Add("Neither uses nor sharpenings are logged: the trend runs over time, and a month of rest counts like a month of work.");
        else if (!sharpened) remarks.Add("No sharpening is logged: all loss is put down to use.");
        else if (!used) remarks.Add("No procedure is logged: all loss is put down to sharpening.");
        if (sharpened && used && inspections >= 4) yield return [WearDriver.Sharpening, WearDriver.Procedure];
        if (sharpened) yield return [WearDriver.Sharpening];
        else if (used) yield return [WearDriver.Procedure];
        else yield return [WearDriver.Time];
    }

    private static void Check(WearObservation o, WearHistory history)
    {
        if (o.When < history.AsNew) throw new ArgumentException(FormattableString.Invariant($"An inspection of {o.When:yyyy-MM-dd} lies before as-new ({history.AsNew:yyyy-MM-dd})."), nameof(history));
        if (!(o.Loss.StandardUncertainty > 0)) throw new ArgumentException("A loss without uncertainty cannot be weighed.", nameof(history));
        if (!(o.SharedStandardUncertainty >= 0 && o.SharedStandardUncertainty < o.Loss.StandardUncertainty))
            throw new ArgumentException("The shared part of an uncertainty must be at least 0 and below the whole.", nameof(history));
    }
}
