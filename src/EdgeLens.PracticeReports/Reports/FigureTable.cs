using System.Globalization;
using EdgeLens.Assessment.Wording;
using EdgeLens.PracticeReports.Content;
using EdgeLens.Records.Inspections;

namespace EdgeLens.PracticeReports.Reports;

/// <summary>All figures of one inspection.</summary>
internal static class FigureTable
{
    public static Table Of(IReadOnlyList<FigureRow> figures) => new(
        [new("Figure", 5), new("Where", 3), new("Value ± U (k = 2)", 4)],
        [.. figures.Where(f => f.Value is not null || !IsOtherFamily(f)).Select(f => (System.Collections.Immutable.ImmutableArray<Cell>)[Title(f.Name), Place(f), f.Value is null ? new("not measured", FigureText.WhyMissing(f.WhyMissing)) : new Cell(ReportSource.FigureWords(f))])]);

    /// <summary>A tip width of a curette and the like: a figure that the family does not have.</summary>
    private static bool IsOtherFamily(FigureRow figure) => figure.Name is "tipWidthUm" or "tipArcRadiusMm" or "toeRadiusUm";

    /// <summary>A figure's name for people.</summary>
    public static string Title(string name) => name switch
    {
        InspectionFigures.ReflectingFractionPercent => "Share of the edge that reflects",
        "greatestReflectionWidthUm" => "Greatest reflection width",
        "nickDepthUm" => "Nick, depth",
        "nickLengthMm" => "Nick, length",
        "toeRadiusUm" => "Toe radius",
        "tipWidthUm" => "Tip width",
        "tipArcRadiusMm" => "Tip arc radius",
        "widthMm" => "Width",
        "blurSigmaUm" => "Blur of the photograph",
        "tiltDeg" => "Tilt of the camera",
        InspectionFigures.JudgedWidthLossPercent => "Width lost, worst judged station",
        InspectionFigures.LengthLossMm => "Length lost",
        InspectionFigures.MeanEdgeLossUm => "Mean edge loss",
        "greatestEdgeLossUm" => "Greatest edge loss",
        InspectionFigures.AreaLossPercent => "Area lost",
        "shapeDriftUm" => "Shape drift",
        "widthLossUm" or "widthLossPercent" => "Width lost",
        _ => name,
    };

    private static string Place(FigureRow f) => string.Join(", ", new[] { f.Part is { } part ? part == "toe" ? "toe or tip" : part + " edge" : null, f.StationMm is { } station ? string.Create(CultureInfo.InvariantCulture, $"{station:0.0##} mm from the end") : null }.OfType<string>());
}
