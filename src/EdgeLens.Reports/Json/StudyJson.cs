using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using EdgeLens.Assessment.Studies;

namespace EdgeLens.Reports.Json;

/// <summary>A gauge study as JSON: docs/study.md.</summary>
public static class StudyJson
{
    /// <summary>Raised when a property changes its meaning or goes.</summary>
    public const int SchemaVersion = 1;

    private static readonly JsonWriterOptions Options = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The whole study; the same bytes for the same input.</summary>
    public static string Write(GaugeStudy study, StudyFacts facts, ReportContext context)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(context);
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream, Options))
        {
            json.WriteStartObject();
            json.WriteNumber("schemaVersion", SchemaVersion);
            json.WriteString("programVersion", context.ProgramVersion);
            json.WriteString("practiceName", context.PracticeName);
            json.WriteBoolean("isRenderedDemo", context.IsRenderedDemo);
            json.WriteString("policyName", facts.PolicyName);
            json.WriteNumber("photographs", facts.PhotographCount);
            json.WriteObjects("refused", facts.Refused, (j, r) =>
            {
                j.WriteString("fileName", r.FileName);
                j.WriteString("reason", r.Reason);
            });
            json.WriteObjects("figures", study.Verdicts, WriteVerdict);
            json.WriteObjects("missing", study.Missing, (j, m) =>
            {
                j.WriteString("figure", m.Name);
                j.WriteString("reason", m.Why);
            });
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    private static void WriteVerdict(Utf8JsonWriter json, GaugeVerdict verdict)
    {
        (GaugeAnova anova, GaugeVariances v) = (verdict.Anova, verdict.Variances);
        json.WriteString("figure", verdict.Name);
        json.WriteString("unit", verdict.Unit);
        json.WriteString("grade", FigureWriting.Name(verdict.Grade));
        json.WriteString("words", verdict.Words);
        json.WriteOptional("limit", verdict.Limit);
        json.WriteNumber("workingEnds", anova.ThingCount);
        json.WriteNumber("people", anova.PersonCount);
        json.WriteNumber("photographsEach", anova.Trials);
        json.WriteRounded("repeatabilitySd", v.RepeatabilitySd);
        json.WriteRounded("repeatabilitySdLow", v.RepeatabilityLimits.Low);
        json.WriteRounded("repeatabilitySdHigh", v.RepeatabilityLimits.High);
        json.WriteRounded("reproducibilitySd", v.ReproducibilitySd);
        json.WriteRounded("gaugeSd", v.GaugeSd);
        json.WriteRounded("workingEndSd", v.ThingSd);
        json.WriteRounded("gaugePercent", v.GaugePercent);
        if (v.DistinctCategories is { } categories) json.WriteNumber("distinctCategories", categories);
        else json.WriteMissing("distinctCategories", "the readings do not scatter");
        json.WriteRounded("repeatabilityLimit", verdict.RepeatabilityLimit);
        json.WriteRounded("smallestChangeSeen", verdict.SmallestChangeSeen);
        json.WriteRounded("statedSd", verdict.StatedSd);
        json.WriteOptional("observedOverStated", verdict.ObservedOverStated);
        json.WriteBoolean("isInteractionPooled", anova.IsPooled);
        json.WriteObjects("anova", new[] { ("workingEnds", anova.Things), ("people", anova.People), ("interaction", anova.Interaction), ("repeats", anova.Repeats) }, (j, line) =>
        {
            j.WriteString("source", line.Item1);
            j.WriteRounded("sumOfSquares", line.Item2.SumOfSquares);
            j.WriteNumber("degreesOfFreedom", line.Item2.DegreesOfFreedom);
            j.WriteRounded("meanSquare", line.Item2.MeanSquare);
        });
    }
}
