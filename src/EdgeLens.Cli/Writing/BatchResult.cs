using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Wording;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;

namespace EdgeLens.Cli.Writing;

/// <summary>What a batch ended with, for the console: docs/commands.md.</summary>
/// <param name="Reports">In the order they were made.</param>
/// <param name="OverviewPath">Null when there is none.</param>
/// <param name="Failures">Working ends without reports, and why.</param>
public sealed record BatchResult(ImmutableArray<WrittenReport> Reports, string? OverviewPath, ImmutableArray<BatchFailure> Failures)
{
    /// <summary>The highest of all.</summary>
    public ExitCode Code => Reports.Select(r => r.Day.Code).Concat(Failures.Select(f => f.Code)).DefaultIfEmpty(ExitCode.Done).Max();

    /// <summary>One line for each inspection, and what could not be measured.</summary>
    public string ToText()
    {
        StringBuilder text = new();
        foreach (WrittenReport report in Reports)
        {
            Inspection i = report.Day.Inspection;
            text.Append(CultureInfo.InvariantCulture, $"{i.Date:yyyy-MM-dd}  {i.InstrumentId} end {i.WorkingEnd}: {i.Verdict.Headline}  ({Path.GetFileName(report.HtmlPath)})\n");
            foreach (InspectionRefusal refused in i.Refusals) text.Append(CultureInfo.InvariantCulture, $"    {Subject(refused)}: {refused.Refusal}\n");
            foreach (PhotographNotMeasured photograph in report.Day.NotMeasured) text.Append(CultureInfo.InvariantCulture, $"    {photograph.Why}\n");
        }
        foreach (BatchFailure failure in Failures) text.Append(CultureInfo.InvariantCulture, $"{failure.InstrumentId} end {failure.WorkingEnd}: {failure.Message}\n");
        if (OverviewPath is not null) text.Append(CultureInfo.InvariantCulture, $"{Reports.Length} reports; open {OverviewPath}\n");
        return text.ToString();
    }

    /// <summary>The same for a program.</summary>
    public string ToJson() => ConsoleJson.Write(json =>
    {
        json.WriteNumber("exitCode", (int)Code);
        json.WriteString("overviewFile", OverviewPath);
        json.WriteStartArray("inspections");
        foreach (WrittenReport report in Reports)
        {
            json.WriteStartObject();
            Write(json, report);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("failures");
        foreach (BatchFailure failure in Failures)
        {
            json.WriteStartObject();
            json.WriteString("instrumentId", failure.InstrumentId);
            json.WriteNumber("workingEnd", failure.WorkingEnd);
            json.WriteString("message", failure.Message);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    });

    private static string Subject(InspectionRefusal refused) => refused.FileName ?? "comparison with as new";

    private static void Write(Utf8JsonWriter json, WrittenReport report)
    {
        Inspection i = report.Day.Inspection;
        json.WriteString("instrumentId", i.InstrumentId);
        json.WriteNumber("workingEnd", i.WorkingEnd);
        json.WriteString("family", FamilyTraits.Of(i.Family).Name);
        json.WriteString("date", DateText.Iso(i.Date));
        json.WriteBoolean("isAsNew", i.IsAsNew);
        json.WriteString("verdict", i.Verdict.KindName);
        json.WriteString("headline", i.Verdict.Headline);
        json.WriteStartArray("refusals");
        foreach (InspectionRefusal refused in i.Refusals)
        {
            json.WriteStartObject();
            json.WriteString("fileName", refused.FileName);
            json.WriteString("code", refused.Refusal.Code);
            json.WriteString("reason", refused.Refusal.Reason);
            json.WriteString("advice", refused.Refusal.Advice);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("notMeasured");
        foreach (PhotographNotMeasured photograph in report.Day.NotMeasured)
        {
            json.WriteStartObject();
            json.WriteString("fileName", photograph.FileName);
            json.WriteString("view", JsonNamingPolicy.CamelCase.ConvertName(photograph.View.ToString()));
            json.WriteString("why", photograph.Why);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteString("jsonFile", report.JsonPath);
        json.WriteString("htmlFile", report.HtmlPath);
    }
}

/// <summary>A working end whose reports could not be made.</summary>
/// <param name="InstrumentId">Its instrument.</param>
/// <param name="WorkingEnd">Its number.</param>
/// <param name="Message">What, where, what to do.</param>
/// <param name="Code">What it alone would end the program with.</param>
public sealed record BatchFailure(string InstrumentId, int WorkingEnd, string Message, ExitCode Code);
