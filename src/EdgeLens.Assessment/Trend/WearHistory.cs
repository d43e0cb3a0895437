using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Trend;

/// <summary>What is known of one measure of wear of one working end since its as-new photographs.</summary>
/// <param name="Measure">What is lost.</param>
/// <param name="AsNew">When the as-new photographs were taken: no loss by definition.</param>
/// <param name="Inspections">Later ones, in any order.</param>
/// <param name="Uses">Logged procedures since as-new; empty where the practice logs none.</param>
/// <param name="Sharpenings">Logged sharpenings since as-new; empty where the practice logs none.</param>
public sealed record WearHistory(
    WearMeasure Measure, DateTime AsNew, ImmutableArray<WearObservation> Inspections, ImmutableArray<UseEntry> Uses, ImmutableArray<SharpeningEntry> Sharpenings);

/// <summary>A measure of wear, with its unit.</summary>
/// <param name="Name">As in the JSON of an inspection: widthLossPercent, lengthLossMm, areaLossPercent, meanEdgeLossUm.</param>
/// <param name="Unit">Of losses and limits.</param>
public sealed record WearMeasure(string Name, string Unit);

/// <summary>The loss that one inspection found against as-new.</summary>
/// <param name="When">A sharpening or procedure at the very same moment counts as later (the usual day: inspect, then sharpen). Give times of day where it was the other way round.</param>
/// <param name="Loss">With its full standard uncertainty, which must be above 0.</param>
/// <param name="SharedStandardUncertainty">
/// The part of it that every comparison with the same as-new photographs shares, with the same sign: the as-new outline's noise and light, its scale.
/// At most the full one. <see cref="SharedUncertainty.Of"/> takes it from a budget.
/// </param>
/// <param name="ProgramVersion">That measured it.</param>
public sealed record WearObservation(DateTime When, Measured Loss, double SharedStandardUncertainty, string ProgramVersion);

/// <summary>Procedures since the entry before.</summary>
/// <param name="When">Day or moment.</param>
/// <param name="LightCases">At least 0.</param>
/// <param name="HeavyCases">Heavy deposits; at least 0.</param>
public sealed record UseEntry(DateTime When, int LightCases, int HeavyCases);

/// <summary>One sharpening.</summary>
/// <param name="When">Day or moment.</param>
/// <param name="By">Initials or staff code; null where not logged.</param>
public sealed record SharpeningEntry(DateTime When, string? By);
