using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Reports.Json;

/// <summary>An inspection as JSON: docs/inspection-json.md, docs/inspection.schema.json. Units in the names, missing figures as null with the reason beside.</summary>
public static class InspectionJson
{
    /// <summary>Raised when a property changes its meaning or goes; new properties do not raise it.</summary>
    public const int SchemaVersion = 1;

    // The text goes into files and pipes, never into a page as it is: µ and ± may stand as they are.
    private static readonly JsonWriterOptions Options = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The whole inspection; the same bytes for the same input.</summary>
    public static string Write(Inspection inspection, ReportContext context)
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream, Options))
        {
            json.WriteStartObject();
            Write(json, inspection, context);
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    private static void Write(Utf8JsonWriter json, Inspection inspection, ReportContext context)
    {
        json.WriteNumber("schemaVersion", SchemaVersion);
        json.WriteString("programVersion", context.ProgramVersion);
        json.WriteString("practiceName", context.PracticeName);
        json.WriteBoolean("isRenderedDemo", context.IsRenderedDemo);
        json.WriteString("instrumentId", inspection.InstrumentId);
        json.WriteNumber("workingEnd", inspection.WorkingEnd);
        json.WriteString("family", FamilyTraits.Of(inspection.Family).Name);
        json.WriteString("workingEdge", inspection.WorkingEdge is { } edge ? FigureWriting.Name(edge) : null);
        json.WriteString("date", DateText.Iso(inspection.Date));
        json.WriteBoolean("isAsNew", inspection.IsAsNew);
        json.WriteString("baselineDate", inspection.BaselineDate is { } date ? DateText.Iso(date) : null);
        json.WriteString("conditionNote", inspection.ConditionNote);
        json.WriteNumber("coverageFactor", Measured.CoverageFactor);
        VerdictJson.Write(json, inspection.Verdict);
        json.WriteObjects("refusals", inspection.Refusals, WriteRefusal);
        WriteOrMissing(json, "today", inspection.Today, FaceJson.Write, inspection, RefusedSubject.TodayFaceView, "there is no face view of this day");
        WriteOrMissing(json, "baseline", inspection.Baseline, FaceJson.Write, inspection, RefusedSubject.BaselineFaceView, inspection.IsAsNew ? "this is the as-new photograph" : "there is no as-new photograph of this working end");
        WriteOrMissing(json, "drift", inspection.Drift, DriftJson.Write, inspection, RefusedSubject.Comparison, inspection.IsAsNew ? "this is the as-new photograph" : "it takes a face view of today and an as-new one");
        WriteOrMissing(json, "todayAngles", inspection.TodayAngles, AngleJson.Write, inspection, RefusedSubject.TodayAngleView, "there is no toe or side view of this day");
        WriteOrMissing(json, "baselineAngles", inspection.BaselineAngles, AngleJson.Write, inspection, RefusedSubject.BaselineAngleView, inspection.IsAsNew ? "this is the as-new photograph" : "there is no as-new toe or side view of this working end");
        WriteOrMissing(json, "angleDrift", inspection.AngleDrift, AngleJson.Write, inspection, RefusedSubject.TodayAngleView, inspection.IsAsNew ? "this is the as-new photograph" : "it takes a toe or side view of today and an as-new one");
        json.WriteObjects("stonePlans", inspection.StonePlans, AngleJson.Write);
        json.WriteObjects("shapeFindings", inspection.ShapeFindings, PlanJson.Write);
        if (inspection.SharpeningPlan is null)
        {
            json.WriteMissing("sharpeningPlan", "nothing is to be ground");
            return;
        }
        json.WriteStartObject("sharpeningPlan");
        PlanJson.Write(json, inspection.SharpeningPlan);
        json.WriteEndObject();
    }

    private static void WriteOrMissing<T>(
        Utf8JsonWriter json, string name, T? part, Action<Utf8JsonWriter, T> write, Inspection inspection, RefusedSubject subject, string otherwise) where T : class
    {
        if (part is null)
        {
            json.WriteMissing(name, inspection.Refusals.FirstOrDefault(r => r.Subject == subject)?.Refusal.Reason ?? otherwise);
            return;
        }
        json.WriteStartObject(name);
        write(json, part);
        json.WriteEndObject();
    }

    private static void WriteRefusal(Utf8JsonWriter json, InspectionRefusal refused)
    {
        json.WriteString("subject", FigureWriting.Name(refused.Subject));
        json.WriteString("fileName", refused.FileName);
        json.WriteString("code", refused.Refusal.Code);
        json.WriteString("reason", refused.Refusal.Reason);
        json.WriteString("advice", refused.Refusal.Advice);
        json.WriteOptional("figure", refused.Refusal.Figure);
        json.WriteOptional("limit", refused.Refusal.Limit);
        json.WriteString("unit", refused.Refusal.Unit);
    }
}
