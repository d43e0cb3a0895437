using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using EdgeLens.Accuracy.Running;

namespace EdgeLens.Accuracy.Printing;

/// <summary>
/// The result as JSON: <c>{"measurands":[{"name","unit","family","count","missing","bias","sd","p95Abs","coverageK2","meanSquaredNormalisedError"}],
/// "dullness":{"sharp","dull","rocArea","spearman","spearmanCeiling","withinQuarter","measurable"},
/// "refusals":{"expected","refusedWithRightReason","refusedWithOtherReason","notRefused","goodRefused"},"verdicts":[{"file","verdict"}],"photos","secondsPerPhotoMedian"}</c>.
/// A figure without anything to compute it from is null.
/// </summary>
public static class BenchJson
{
    private static readonly JsonSerializerOptions Form = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, // µ and % as they are: the file is never put into a page
        NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals, // an infinite normalised error must not be lost
    };

    /// <summary>The text of the file.</summary>
    public static string Write(BenchRun run) => JsonSerializer.Serialize(
        new
        {
            Measurands = run.ByFamily().Select(row => new
            {
                row.Name,
                row.Unit,
                Family = row.Group,
                row.Statistics.Count,
                row.Statistics.Missing,
                row.Statistics.Bias,
                row.Statistics.Sd,
                row.Statistics.P95Abs,
                row.Statistics.CoverageK2,
                row.Statistics.MeanSquaredNormalisedError,
            }),
            Dullness = run.Dullness,
            Refusals = new
            {
                Expected = run.ToRefuse.Length,
                RefusedWithRightReason = run.ToRefuse.Count(photo => photo.Result == RefusalResult.RightReason),
                RefusedWithOtherReason = run.ToRefuse.Count(photo => photo.Result == RefusalResult.OtherReason),
                NotRefused = run.ToRefuse.Count(photo => photo.Result == RefusalResult.NotRefused),
                GoodRefused = run.Good.Count(photo => photo.Reply.Refusal is not null),
            },
            Verdicts = run.Good.Where(photo => photo.Reply.Angles is null).Select(photo => new { photo.File, Verdict = BenchTable.VerdictName(photo.Reply) })
                .Concat(run.ToRefuse.Select(photo => new { photo.File, Verdict = BenchTable.VerdictName(photo.Reply) })),
            Photos = run.PhotoCount,
            SecondsPerPhotoMedian = run.MedianSeconds,
        },
        Form) + "\n";
}
