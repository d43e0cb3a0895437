using System.Globalization;
using EdgeLens.Accuracy.Running;
using EdgeLens.Accuracy.Statistics;
using EdgeLens.Assessment.Decision;

namespace EdgeLens.Accuracy.Printing;

/// <summary>The result as text for a terminal.</summary>
public static class BenchTable
{
    /// <summary>Writes everything; <paramref name="each"/> adds the rows of each photograph.</summary>
    public static void Write(TextWriter text, BenchRun run, bool each)
    {
        if (each) WriteRows(text, "photograph", run.ByPhoto());
        WriteRows(text, "family", run.ByFamily());
        DullnessStatistics dull = run.Dullness;
        text.WriteLine();
        text.WriteLine("edge radius, stretches of 0.5 mm");
        text.WriteLine($"  {dull.Dull} of 15 µm and more against {dull.Sharp} of 5 µm and less: area under the ROC curve {Number(dull.RocArea)}; Spearman correlation of all {Number(dull.Spearman)} (a perfect order: {Number(dull.SpearmanCeiling)})");
        text.WriteLine($"  {dull.Measurable} of 10 to 60 µm: {Percent(dull.WithinQuarter)} within 25 %");
        WriteRefusals(text, run);
        text.WriteLine();
        text.WriteLine("verdicts");
        foreach (GoodPhoto photo in run.Good.Where(photo => photo.Reply.Angles is null)) text.WriteLine($"  {photo.File,-36} {VerdictName(photo.Reply)}");
        text.WriteLine();
        text.WriteLine(FormattableString.Invariant($"{run.PhotoCount} photographs, median {run.MedianSeconds:0.00} s each"));
    }

    /// <summary>As in files: lower case with hyphens.</summary>
    public static string VerdictName(Reply reply) => reply.Verdict switch
    {
        VerdictKind.Keep => "keep",
        VerdictKind.Retake => "retake",
        VerdictKind.TouchUp => "touch-up",
        VerdictKind.Resharpen => "resharpen",
        VerdictKind.Retire => "retire",
        _ => Reply.CrashCode,
    };

    private static void WriteRows(TextWriter text, string group, IEnumerable<MeasurandRow> rows)
    {
        string? name = null;
        foreach (MeasurandRow row in rows)
        {
            if (row.Name != name)
            {
                text.WriteLine();
                text.WriteLine($"{row.Name} ({row.Unit})");
                text.WriteLine($"  {group,-36} {"count",6} {"missing",7} {"bias",10} {"sd",10} {"p95Abs",10} {"within k=2",10} {"(e/u)²",8}");
                name = row.Name;
            }
            ErrorStatistics s = row.Statistics;
            text.WriteLine($"  {row.Group,-36} {s.Count,6} {s.Missing,7} {Number(s.Bias),10} {Number(s.Sd),10} {Number(s.P95Abs),10} {Percent(s.CoverageK2),10} {Number(s.MeanSquaredNormalisedError),8}");
        }
    }

    private static void WriteRefusals(TextWriter text, BenchRun run)
    {
        text.WriteLine();
        text.WriteLine("photographs to be refused");
        foreach (BadPhoto photo in run.ToRefuse) text.WriteLine($"  {photo.File,-36} {Words(photo)}{(photo.Reply.Refusal is { } refusal ? $": {refusal}" : "")}");
        WriteList(text, "good photographs refused", run.Good.Select(photo => (photo.File, photo.Reply.Refusal)));
        WriteList(text, "good photographs not compared with their baseline", run.Good.Select(photo => (photo.File, photo.Reply.DriftRefusal)));
    }

    private static string Words(BadPhoto photo) => photo.Result switch
    {
        RefusalResult.RightReason => "refused with the right reason",
        RefusalResult.OtherReason => $"refused, but not as {photo.Reason}",
        _ => $"NOT refused ({photo.Reason})",
    };

    private static void WriteList(TextWriter text, string title, IEnumerable<(string File, Geometry.Figures.Refusal? Refusal)> photos)
    {
        (string File, Geometry.Figures.Refusal? Refusal)[] refused = [.. photos.Where(photo => photo.Refusal is not null)];
        text.WriteLine($"{title}: {refused.Length}");
        foreach ((string file, Geometry.Figures.Refusal? refusal) in refused) text.WriteLine($"  {file,-36} {refusal}");
    }

    /// <summary>Four significant digits: more would be noise, fewer hide a change.</summary>
    private static string Number(double? value) => value is { } v ? v.ToString("G4", CultureInfo.InvariantCulture) : "-";

    private static string Percent(double? share) => share is { } s ? FormattableString.Invariant($"{100 * s:0.0} %") : "-";
}
