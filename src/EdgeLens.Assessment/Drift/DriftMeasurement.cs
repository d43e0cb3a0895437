using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Drift;

/// <summary>Today against the as-new baseline of the same working end (measurands.md).</summary>
/// <param name="BaselineFromToday">Registration on the heel quarter and the shank's root.</param>
/// <param name="RegistrationResidualUm">Root mean square distance of the reference stretch after registration.</param>
/// <param name="EdgeLoss">Per 0.05 mm of the baseline's arc; positive is metal lost.</param>
/// <param name="GreatestEdgeLossUm">Over the cutting edges.</param>
/// <param name="MeanEdgeLossUm">Over the cutting edges.</param>
/// <param name="WidthLosses">At the stations that both photographs reach.</param>
/// <param name="LengthLossUm">How far today's apex stands behind the as-new apex.</param>
/// <param name="AreaLossPercent">Forward of the station at 80 % of the as-new length from the apex.</param>
/// <param name="ShapeDriftUm">Root mean square left after the best uniform offset.</param>
public sealed record DriftMeasurement(
    Similarity BaselineFromToday,
    double RegistrationResidualUm,
    ImmutableArray<EdgeLossSample> EdgeLoss,
    Figure GreatestEdgeLossUm,
    Figure MeanEdgeLossUm,
    ImmutableArray<StationWidthLoss> WidthLosses,
    Figure LengthLossUm,
    Figure AreaLossPercent,
    Figure ShapeDriftUm)
{
    /// <summary>Where the uncertainty of the figures comes from: mean and greatest edge loss, each width loss in µm and %, length loss, area loss.</summary>
    public ImmutableArray<FigureBudget> Budgets { get; init; } = [];

    /// <summary>The budget of a figure; null when there is none.</summary>
    /// <param name="figure">The measurand's name as in the JSON, with its unit.</param>
    /// <param name="stationMm">For a width loss: which station.</param>
    public UncertaintyBudget? BudgetOf(string figure, double? stationMm = null) => Budgets.FirstOrDefault(b => b.Figure == figure && b.StationMm == stationMm)?.Budget;
}

/// <summary>The uncertainty budget of one figure.</summary>
/// <param name="Figure">The measurand's name as in the JSON, with its unit.</param>
/// <param name="StationMm">Where the figure belongs to a station.</param>
/// <param name="Budget">Its contributions in the figure's unit.</param>
public sealed record FigureBudget(string Figure, double? StationMm, UncertaintyBudget Budget);

/// <summary>Signed distance along the baseline's inward normal to today's outline.</summary>
/// <param name="ArcMm">Along the baseline outline from its first point.</param>
/// <param name="Part">Which edge.</param>
/// <param name="StationMm">Back from the as-new apex.</param>
/// <param name="LossUm">Positive is metal lost; missing where today's outline cannot be seen.</param>
public sealed record EdgeLossSample(double ArcMm, EdgePart Part, double StationMm, Figure LossUm);

/// <summary>Width lost at a station.</summary>
/// <param name="StationMm">Back from the as-new apex.</param>
/// <param name="LossUm">As-new less today.</param>
/// <param name="LossPercent">Of as-new.</param>
public readonly record struct StationWidthLoss(double StationMm, Measured LossUm, Measured LossPercent);
