using EdgeLens.Geometry.Figures;

namespace EdgeLens.Records.Inspections;

/// <summary>One figure of one inspection, as a row that can be searched.</summary>
public sealed record FigureRow
{
    /// <summary>The inspection's row; set by the store.</summary>
    public long InspectionId { get; init; }

    /// <summary>Counts the figures of an inspection from 0.</summary>
    public int Position { get; init; }

    /// <summary>As in the JSON of an inspection, with the unit as its ending.</summary>
    public required string Name { get; init; }

    /// <summary>Which edge: left, toe, right; null where the whole working end is meant.</summary>
    public string? Part { get; init; }

    /// <summary>Place along the blade, mm back from the as-new apex; null where there is none.</summary>
    public double? StationMm { get; init; }

    /// <summary>In the name's unit; null when missing.</summary>
    public double? Value { get; init; }

    /// <summary>Standard uncertainty, same unit; null when missing.</summary>
    public double? StandardUncertainty { get; init; }

    /// <summary>The part of it that all comparisons with the same as-new photographs share; null: not stated.</summary>
    public double? SharedStandardUncertainty { get; init; }

    /// <summary>For people: mm, µm, %, °.</summary>
    public required string Unit { get; init; }

    /// <summary>Why it is missing; null when it is there.</summary>
    public string? WhyMissing { get; init; }

    /// <summary>Value and uncertainty, or the reason.</summary>
    public Figure Figure => Value is { } value && StandardUncertainty is { } u ? new Measured(value, u) : Figure.Missing(WhyMissing ?? "not stated");

    /// <summary>A row of a figure.</summary>
    public static FigureRow Of(string name, string unit, Figure figure, string? part = null, double? stationMm = null, double? shared = null) => new()
    {
        Name = name,
        Unit = unit,
        Part = part,
        StationMm = stationMm,
        Value = figure.Measured?.Value,
        StandardUncertainty = figure.Measured?.StandardUncertainty,
        SharedStandardUncertainty = figure.Measured is null ? null : shared,
        WhyMissing = figure.WhyMissing,
    };
}

/// <summary>A figure with the inspection that it belongs to.</summary>
/// <param name="Inspection">Of the day.</param>
/// <param name="Figure">The row.</param>
public sealed record DatedFigure(InspectionEntry Inspection, FigureRow Figure);
