using System.Text.Json;
using EdgeLens.Assessment.Decision;

namespace EdgeLens.Reports.Json;

/// <summary>The verdict with its reasons and every comparison with a limit.</summary>
internal static class VerdictJson
{
    public static void Write(Utf8JsonWriter json, Verdict verdict)
    {
        json.WriteStartObject("verdict");
        json.WriteString("kind", verdict.KindName);
        json.WriteString("headline", verdict.Headline);
        json.WriteString("policyName", verdict.PolicyName);
        json.WriteTexts("reasons", verdict.Reasons.Select(r => r.Words));
        json.WriteTexts("remarks", verdict.Remarks);
        json.WriteTexts("nextSteps", verdict.NextSteps);
        json.WriteObjects("checks", verdict.Checks, (j, check) => WriteCheck(j, check, verdict.Reasons.Any(r => ReferenceEquals(r.Check, check) || ReferenceEquals(r.Open, check))));
        json.WriteEndObject();
    }

    private static void WriteCheck(Utf8JsonWriter json, LimitCheck check, bool isReason)
    {
        json.WriteString("name", check.FigureName);
        json.WriteString("unit", check.Unit);
        json.WriteFigure("figure", check.Figure);
        json.WriteRounded("limit", check.Limit);
        json.WriteString("limitFor", check.RoleName);
        json.WriteString("conformity", check.Conformity switch
        {
            Conformity.Inside => "inside",
            Conformity.Outside => "outside",
            Conformity.NotDecidable => "not-decidable",
            _ => "not-measured",
        });
        json.WriteBoolean("isReason", isReason);
        json.WriteString("part", check.Part is { } part ? FigureWriting.Name(part) : null);
        json.WriteObjects("stretches", check.Where, (j, s) =>
        {
            j.WriteRounded("fromStationMm", s.FromStationMm);
            j.WriteRounded("toStationMm", s.ToStationMm);
        });
    }
}
