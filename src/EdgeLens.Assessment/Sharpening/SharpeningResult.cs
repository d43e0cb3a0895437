using System.Collections.Immutable;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Sharpening;

/// <summary>Whether an edge is done.</summary>
public enum SharpeningStage
{
    /// <summary>Everything that tells dullness is inside its limit.</summary>
    Finished,

    /// <summary>Something is clearly beyond its limit.</summary>
    GoOn,

    /// <summary>The photograph does not say: test on a plastic rod, or photograph again.</summary>
    NotDecidable,
}

/// <summary>What a sharpening did to one edge.</summary>
/// <param name="Part">Which edge.</param>
/// <param name="RadiusBeforeUm">Greatest radius over 0.5 mm before.</param>
/// <param name="RadiusAfterUm">The same after.</param>
/// <param name="RemovedUm">Mean distance by which the edge stands back now. Of an edge that was dull a part of it is the rounding that was ground away.</param>
/// <param name="Stage">Whether it is done.</param>
/// <param name="GoOnAt">Where it still shows a line; empty when it is finished.</param>
public sealed record SharpenedEdge(EdgePart Part, Figure RadiusBeforeUm, Figure RadiusAfterUm, Figure RemovedUm, SharpeningStage Stage, ImmutableArray<Stretch> GoOnAt);

/// <summary>What a sharpening did: two photographs of the same working end, before and after.</summary>
/// <param name="Edges">Each edge that cuts.</param>
/// <param name="Angles">After less before; null without a toe or side view of both.</param>
/// <param name="WidthLosses">Steel taken off the width at each station.</param>
public sealed record SharpeningResult(ImmutableArray<SharpenedEdge> Edges, AngleDrift? Angles, ImmutableArray<StationWidthLoss> WidthLosses)
{
    private const string NotCompared = "The two photographs could not be laid over each other.";

    /// <summary>Reads the result from an inspection whose baseline is the photograph before the sharpening.</summary>
    /// <param name="after">Today after, baseline before; null when today's photograph was refused.</param>
    public static SharpeningResult? Of(Inspection after)
    {
        if (after?.Today is not { } today) return null;
        return new([.. CuttingParts.Of(after.Family, after.WorkingEdge).Judged.Select(part => Edge(after, today, part))], after.AngleDrift, after.Drift?.WidthLosses ?? []);
    }

    private static SharpenedEdge Edge(Inspection after, FaceMeasurement today, EdgePart part)
    {
        EdgeLightSummary? now = today.Light.Edges.FirstOrDefault(e => e.Part == part), then = after.Baseline?.Light.Edges.FirstOrDefault(e => e.Part == part);
        LimitCheck[] checks = [.. after.Verdict.Checks.Where(c => c.IsOfSharpness && c.Part == part)];
        SharpeningStage stage = checks.Any(c => c.IsExceeded) ? SharpeningStage.GoOn
            : checks.Length > 0 && checks.All(c => c.Conformity is Conformity.Inside) ? SharpeningStage.Finished : SharpeningStage.NotDecidable;
        return new(part, then?.Radius.GreatestUm ?? Figure.Missing("There is no measured photograph from before."), now?.Radius.GreatestUm ?? Figure.Missing("The light on this edge was not measured."),
            Removed(after.Drift, part), stage, stage == SharpeningStage.Finished ? [] : [.. (now?.DullStretches ?? []).Select(d => new Stretch(d.FromStationMm, d.ToStationMm))]);
    }

    private static Figure Removed(DriftMeasurement? drift, EdgePart part)
    {
        Measured[] losses = [.. (drift?.EdgeLoss ?? []).Where(s => s.Part == part).Select(s => s.LossUm.Measured).OfType<Measured>()];
        // The registration is common to all places: uncertainties are averaged, not divided by the root of their number.
        return losses.Length == 0 ? Figure.Missing(NotCompared) : new Measured(losses.Average(l => l.Value), losses.Average(l => l.StandardUncertainty));
    }
}
