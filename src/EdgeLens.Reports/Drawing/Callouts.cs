using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Reports.Drawing;

/// <summary>A numbered place of today's outline with its words.</summary>
/// <param name="PointIndex">Of today's outline.</param>
/// <param name="Words">What is there, with figure, uncertainty and place.</param>
internal sealed record Callout(int PointIndex, string Words);

/// <summary>The places worth pointing at: on each cutting edge the greatest loss and the widest line of light, and every nick.</summary>
internal static class Callouts
{
    // More numbers than this hide the picture; the nicks are there in the table all the same.
    private const int MostNicks = 4;

    public static IEnumerable<Callout> Of(Inspection inspection, FaceMeasurement today)
    {
        foreach (EdgePart part in CuttingParts.Of(inspection.Family, inspection.WorkingEdge).Judged)
        {
            if (GreatestLoss(inspection, today, part) is { } loss) yield return loss;
            if (WidestLine(inspection.Family, today, part) is { } line) yield return line;
        }
        foreach (Nick nick in today.Nicks.OrderByDescending(n => n.DepthUm.Value).Take(MostNicks))
            yield return new(OutlinePlaces.IndexAt(today.Outline, nick.ArcMm),
                $"{Place(nick.Part, nick.StationMm, inspection.Family)}: nick {FigureText.WithUncertainty(nick.DepthUm, "µm")} deep, {FigureText.WithUncertainty(nick.LengthMm, "mm")} long");
    }

    private static Callout? GreatestLoss(Inspection inspection, FaceMeasurement today, EdgePart part)
    {
        if (inspection is not { Baseline: { } baseline, Drift: { } drift }) return null;
        EdgeLossSampleAt[] clear =
        [
            .. drift.EdgeLoss.Where(s => s.Part == part && s.LossUm.Measured is { } m && ConformityRule.Judge(m, 0) == Conformity.Outside)
                .Select(s => new EdgeLossSampleAt(s.StationMm, s.LossUm.Measured!.Value, OutlinePlaces.Landing(baseline.Outline, s))),
        ];
        if (clear.Length == 0) return null;
        EdgeLossSampleAt greatest = clear.MaxBy(s => s.LossUm.Value)!;
        int index = Enumerable.Range(0, today.Outline.Points.Length).MinBy(i =>
            (drift.BaselineFromToday.Apply(new(today.Outline.Points[i].Position.XMm, today.Outline.Points[i].Position.ZMm)) - greatest.Place).Length);
        return new(index, $"{Place(part, greatest.StationMm, inspection.Family)}: greatest loss, {FigureText.WithUncertainty(greatest.LossUm, "µm")}");
    }

    private static Callout? WidestLine(InstrumentFamily family, FaceMeasurement today, EdgePart part)
    {
        if (today.Light.SharpLimitUm is not { } sharp) return null;
        LightSample? widest = today.Light.Samples
            .Where(s => s.Part == part && s.ReflectionWidthUm.Measured is { } m && ConformityRule.Judge(m, sharp) == Conformity.Outside)
            .MaxBy(s => s.ReflectionWidthUm.Measured!.Value.Value);
        return widest is null ? null : new(OutlinePlaces.IndexAt(today.Outline, widest.ArcMm),
            $"{Place(part, widest.StationMm, family)}: widest line of light, {FigureText.WithUncertainty(widest.ReflectionWidthUm.Measured!.Value, "µm")}");
    }

    private static string Place(EdgePart part, double stationMm, InstrumentFamily family) =>
        $"{PlaceText.Sentence(PlaceText.Name(part, family))}, {PlaceText.From(new Stretch(stationMm, stationMm), family)}";

    private sealed record EdgeLossSampleAt(double StationMm, EdgeLens.Geometry.Figures.Measured LossUm, Vector2 Place);
}
