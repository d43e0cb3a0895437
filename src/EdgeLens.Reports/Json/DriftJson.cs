using System.Text.Json;
using EdgeLens.Assessment.Drift;

namespace EdgeLens.Reports.Json;

/// <summary>Today against as-new.</summary>
internal static class DriftJson
{
    public static void Write(Utf8JsonWriter json, DriftMeasurement drift)
    {
        json.WriteSimilarity("baselineFromToday", drift.BaselineFromToday);
        json.WriteRounded("registrationResidualUm", drift.RegistrationResidualUm);
        json.WriteFigure("greatestEdgeLossUm", drift.GreatestEdgeLossUm);
        json.WriteFigure("meanEdgeLossUm", drift.MeanEdgeLossUm);
        json.WriteFigure("lengthLossUm", drift.LengthLossUm);
        json.WriteFigure("areaLossPercent", drift.AreaLossPercent);
        json.WriteFigure("shapeDriftUm", drift.ShapeDriftUm);
        json.WriteObjects("widthLosses", drift.WidthLosses, (j, w) =>
        {
            j.WriteRounded("stationMm", w.StationMm);
            j.WriteMeasured("widthLossUm", w.LossUm);
            j.WriteMeasured("widthLossPercent", w.LossPercent);
        });
        json.WriteBudgets("budgets", drift.Budgets);
        json.WriteObjects("edgeLoss", drift.EdgeLoss, (j, s) =>
        {
            j.WriteString("part", FigureWriting.Name(s.Part));
            j.WriteRounded("arcMm", s.ArcMm);
            j.WriteRounded("stationMm", s.StationMm);
            j.WriteFigure("edgeLossUm", s.LossUm);
        });
    }
}
