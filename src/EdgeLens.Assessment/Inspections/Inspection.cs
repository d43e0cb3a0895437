using System.Collections.Immutable;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Sharpening;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Inspections;

/// <summary>One working end, inspected on one day: all that reports and records are made from.</summary>
public sealed record Inspection
{
    /// <summary>The practice's own name for the instrument.</summary>
    public required string InstrumentId { get; init; }

    /// <summary>Which end of a double-ended instrument, counted from 1.</summary>
    public required int WorkingEnd { get; init; }

    /// <summary>Kind of working end.</summary>
    public required InstrumentFamily Family { get; init; }

    /// <summary>Day of today's photographs.</summary>
    public required DateOnly Date { get; init; }

    /// <summary>True for the inspection that later ones are compared with.</summary>
    public bool IsAsNew { get; init; }

    /// <summary>For an area-specific curette the edge that cuts on this end, if known.</summary>
    public EdgePart? WorkingEdge { get; init; }

    /// <summary>What the user wrote about its condition.</summary>
    public string? ConditionNote { get; init; }

    /// <summary>Today's face view; null when the photograph was refused.</summary>
    public FaceMeasurement? Today { get; init; }

    /// <summary>The as-new face view; null when there is none or it was refused.</summary>
    public FaceMeasurement? Baseline { get; init; }

    /// <summary>Day of the as-new photographs.</summary>
    public DateOnly? BaselineDate { get; init; }

    /// <summary>Today against as-new; null when one of the two is missing or they could not be compared.</summary>
    public DriftMeasurement? Drift { get; init; }

    /// <summary>Today's toe or side view; null when there is none or it was refused.</summary>
    public AngleMeasurement? TodayAngles { get; init; }

    /// <summary>The as-new toe or side view; null when there is none or it was refused.</summary>
    public AngleMeasurement? BaselineAngles { get; init; }

    /// <summary>Angles today against as-new; null when one of the two views is missing.</summary>
    public AngleDrift? AngleDrift { get; init; }

    /// <summary>How to hold the stone, for each edge; empty without a toe or side view of today.</summary>
    public ImmutableArray<EdgeStonePlan> StonePlans { get; init; } = [];

    /// <summary>Faults of form that grinding has made since as-new, the largest first.</summary>
    public ImmutableArray<ShapeFinding> ShapeFindings { get; init; } = [];

    /// <summary>The work at the bench, in order; null when nothing is to be ground.</summary>
    public SharpeningPlan? SharpeningPlan { get; init; }

    /// <summary>What to do.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>Photographs and comparisons that were refused.</summary>
    public ImmutableArray<InspectionRefusal> Refusals { get; init; } = [];
}

/// <summary>A refusal and what it refused.</summary>
/// <param name="Subject">What could not be measured.</param>
/// <param name="FileName">The photograph, without folder; null for a comparison.</param>
/// <param name="Refusal">Why, and what to do.</param>
public sealed record InspectionRefusal(RefusedSubject Subject, string? FileName, Refusal Refusal);

/// <summary>What can be refused in an inspection.</summary>
public enum RefusedSubject
{
    /// <summary>Today's face view.</summary>
    TodayFaceView,

    /// <summary>The as-new face view.</summary>
    BaselineFaceView,

    /// <summary>The comparison of the two.</summary>
    Comparison,

    /// <summary>Today's toe or side view.</summary>
    TodayAngleView,

    /// <summary>The as-new toe or side view.</summary>
    BaselineAngleView,
}
