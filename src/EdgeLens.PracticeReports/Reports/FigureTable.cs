using System.Globalization;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Wording;
using EdgeLens.PracticeReports.Content;
using EdgeLens.Records.Inspections;

namespace EdgeLens.PracticeReports.Reports;

/// <summary>All figures of one inspection: a list, and a table of the widths by station.</summary>
internal static class FigureTable
{
    private static readonly string[] ByStation = ["widthMm", "widthLossUm", "widthLossPercent"];

    public static IEnumerable<Table> Of(IReadOnlyList<FigureRow> figures, InstrumentFamily family)
    {
        yield return List(figures, FamilyTraits.Of(family));
        FigureRow[] widths = [.. figures.Where(f => ByStation.Contains(f.Name) && f.StationMm is not null)];
        if (widths.Length == 0) yield break;
        yield return new(
            [new("Station, mm from the end", 2, IsNumber: true), new("Width", 3, IsNumber: true), new("Lost since as-new", 3, IsNumber: true), new("Share lost", 3, IsNumber: true)],
            [
                .. widths.GroupBy(f => f.StationMm!.Value).OrderBy(g => g.Key).Select(g => (System.Collections.Immutable.ImmutableArray<Cell>)
                    [g.Key.ToString("0.0##", CultureInfo.InvariantCulture), .. ByStation.Select(name => (Cell)(g.FirstOrDefault(f => f.Name == name) is { } f ? ReportSource.FigureWords(f) : ""))]),
            ]);
    }

    private static Table List(IReadOnlyList<FigureRow> figures, FamilyTraits family) => new(
        [new("Figure", 5), new("Where", 3), new("Value ± U (k = 2)", 4)],
        [.. figures.Where(f => (f.Value is not null || !IsOfOtherFamily(f, family)) && !(ByStation.Contains(f.Name) && f.StationMm is not null)).Select(f => (System.Collections.Immutable.ImmutableArray<Cell>)[Title(f.Name), Place(f), f.Value is null ? new("not measured", FigureText.WhyMissing(f.WhyMissing)) : new Cell(ReportSource.FigureWords(f))])]);

    /// <summary>A tip width of a curette and the like: a figure that the family does not have is not called missing.</summary>
    private static bool IsOfOtherFamily(FigureRow figure, FamilyTraits family) => figure.Name switch
    {
        "tipWidthUm" => !family.HasPointedTip,
        "tipArcRadiusMm" => !family.TipCuts,
        "toeRadiusUm" => family.HasPointedTip || family.TipCuts,
        _ => false,
    };

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
        InspectionFigures.LengthLossMm or "lengthLossUm" => "Length lost",
        InspectionFigures.MeanEdgeLossUm => "Mean edge loss",
        "greatestEdgeLossUm" => "Greatest edge loss",
        InspectionFigures.AreaLossPercent => "Area lost",
        "shapeDriftUm" => "Shape drift",
        "greatestEdgeRadiusUm" => "Greatest edge radius",
        "edgeRadiusUm" => "Edge radius",
        "faceAngleDeg" => "Face to shank",
        "internalAngleDeg" => "Internal angle",
        "wedgeAngleDeg" => "Wedge angle",
        "tipThicknessUm" => "Tip thickness",
        "bevelEndMm" => "Where the bevel ends",
        "secondBevelLengthMm" => "Second bevel, length",
        "secondBevelSteeperDeg" => "Second bevel, steeper by",
        "edgeWedgeAngleDeg" => "Wedge angle at the edge",
        "widthLossUm" or "widthLossPercent" => "Width lost",
        _ => name,
    };

    private static string Place(FigureRow f) => string.Join(", ", new[] { f.Part is { } part ? part == "toe" ? "toe or tip" : part + " edge" : null, f.StationMm is { } station ? string.Create(CultureInfo.InvariantCulture, $"{station:0.0##} mm from the end") : null }.OfType<string>());
}
