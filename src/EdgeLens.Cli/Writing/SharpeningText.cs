using System.Globalization;
using System.Text;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Sharpening;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Cli.Writing;

/// <summary>What a sharpening did, for a reader at the console.</summary>
internal static class SharpeningText
{
    public static string Of(Inspection after, SharpeningResult? result)
    {
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"{after.InstrumentId} end {after.WorkingEnd}: before and after sharpening\n");
        foreach (InspectionRefusal refused in after.Refusals) text.Append(CultureInfo.InvariantCulture, $"  refused: {refused.Refusal}\n");
        if (result is null) return text.ToString();
        foreach (SharpenedEdge edge in result.Edges)
        {
            text.Append(CultureInfo.InvariantCulture, $"  {PlaceText.Name(edge.Part, after.Family)}: {Words(edge, after)}\n");
            text.Append(CultureInfo.InvariantCulture, $"    greatest edge radius before  {Value(edge.RadiusBeforeUm, "µm")}\n");
            text.Append(CultureInfo.InvariantCulture, $"    greatest edge radius after   {Value(edge.RadiusAfterUm, "µm")}\n");
            text.Append(CultureInfo.InvariantCulture, $"    the edge stands back by      {Value(edge.RemovedUm, "µm")}\n");
        }
        foreach (StationWidthLoss loss in result.WidthLosses)
            text.Append(CultureInfo.InvariantCulture, $"  width taken off {loss.StationMm:0.0} mm back  {FigureText.WithUncertainty(loss.LossUm, "µm")}\n");
        foreach ((string name, Figure? change) in ((string, Figure?)[])[("face angle", result.Angles?.FaceAngleDeg), ("internal angle, left", result.Angles?.InternalAngleLeftDeg), ("internal angle, right", result.Angles?.InternalAngleRightDeg), ("wedge angle", result.Angles?.WedgeAngleDeg)])
            if (change?.Measured is { } deg) text.Append(CultureInfo.InvariantCulture, $"  {name} changed by  {FigureText.WithUncertainty(deg, "°")}\n");
        if (result.Edges.Any(e => e.Stage == SharpeningStage.GoOn))
            text.Append("A wire edge left by the stone shows a line of light too: draw it off, wipe the edge, and photograph it again before more steel is taken.\n");
        text.Append("± is the expanded uncertainty, k = 2 (about 95 %).\n");
        return text.ToString();
    }

    private static string Words(SharpenedEdge edge, Inspection after) => edge.Stage switch
    {
        SharpeningStage.Finished => "finished",
        SharpeningStage.GoOn => edge.GoOnAt.IsEmpty ? "go on" : $"go on {PlaceText.From(edge.GoOnAt, after.Family)}",
        _ => "not decidable with these photographs: test it on a plastic rod, or photograph it again",
    };

    private static string Value(Figure figure, string unit) => figure.Measured is { } m ? FigureText.WithUncertainty(m, unit) : $"not measured: {figure.WhyMissing}";
}
