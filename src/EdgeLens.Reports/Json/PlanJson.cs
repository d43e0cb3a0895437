using System.Text.Json;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Sharpening;

namespace EdgeLens.Reports.Json;

/// <summary>Faults of form and the work at the bench.</summary>
internal static class PlanJson
{
    public static void Write(Utf8JsonWriter json, ShapeFinding finding)
    {
        json.WriteString("fault", FigureWriting.Name(finding.Fault));
        json.WriteString("part", finding.Part is { } part ? FigureWriting.Name(part) : null);
        json.WriteOptional("fromStationMm", finding.Where?.FromStationMm);
        json.WriteOptional("toStationMm", finding.Where?.ToStationMm);
        json.WriteMeasured("amountUm", finding.AmountUm);
        json.WriteString("words", finding.Words);
    }

    public static void Write(Utf8JsonWriter json, SharpeningPlan plan)
    {
        json.WriteTexts("before", plan.Before);
        json.WriteObjects("steps", plan.Steps, (j, s) =>
        {
            j.WriteString("edge", FigureWriting.Name(s.Edge));
            j.WriteBoolean("isFull", s.IsFull);
            j.WriteObjects("stretches", s.Where, (k, w) =>
            {
                k.WriteRounded("fromStationMm", w.FromStationMm);
                k.WriteRounded("toStationMm", w.ToStationMm);
            });
            j.WriteMeasured("stoneToFaceDeg", s.StoneToFaceDeg);
            j.WriteBoolean("isAngleOfFamily", s.IsAngleOfFamily);
            j.WriteFigure("costUm", s.CostUm);
            j.WriteString("words", s.Words);
        });
        json.WriteTexts("after", plan.After);
    }
}
