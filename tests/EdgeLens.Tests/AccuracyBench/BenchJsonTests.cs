using System.Collections.Immutable;
using System.Text.Json;
using EdgeLens.Accuracy.Comparing;
using EdgeLens.Accuracy.Printing;
using EdgeLens.Accuracy.Running;
using EdgeLens.Assessment.Decision;
using EdgeLens.Geometry.Figures;
using Xunit;

namespace EdgeLens.Tests.AccuracyBench;

/// <summary>The form of the bench's file, which others read.</summary>
public sealed class BenchJsonTests
{
    private static readonly JsonElement Json = JsonDocument.Parse(BenchJson.Write(MakeRun())).RootElement;

    [Fact]
    public void It_has_the_agreed_members_and_no_other()
    {
        Assert.Equal(["measurands", "dullness", "refusals", "verdicts", "photos", "secondsPerPhotoMedian"], Names(Json));
        Assert.Equal(["name", "unit", "family", "count", "missing", "bias", "sd", "p95Abs", "coverageK2", "meanSquaredNormalisedError"], Names(Json.GetProperty("measurands")[0]));
        Assert.Equal(["expected", "refusedWithRightReason", "refusedWithOtherReason", "notRefused", "goodRefused"], Names(Json.GetProperty("refusals")));
        Assert.Equal(["sharp", "dull", "rocArea", "spearman", "spearmanCeiling", "withinQuarter", "measurable"], Names(Json.GetProperty("dullness")));
        Assert.Equal(["file", "verdict"], Names(Json.GetProperty("verdicts")[0]));
    }

    [Fact]
    public void Refusals_are_counted_by_what_happened() =>
        Assert.Equal("""{"expected":3,"refusedWithRightReason":1,"refusedWithOtherReason":1,"notRefused":1,"goodRefused":1}""", JsonSerializer.Serialize(Json.GetProperty("refusals")));

    [Fact]
    public void A_measurand_has_a_row_for_each_family_and_one_for_all()
    {
        JsonElement[] rows = [.. Json.GetProperty("measurands").EnumerateArray().Where(row => row.GetProperty("name").GetString() == "cornerResidualPx")];
        Assert.Equal(["luxator", "universal-curette", "all"], rows.Select(row => row.GetProperty("family").GetString()));
        Assert.Equal([1, 0, 1], rows.Select(row => row.GetProperty("count").GetInt32()));
        Assert.Equal([0, 1, 1], rows.Select(row => row.GetProperty("missing").GetInt32()));
        Assert.Equal(JsonValueKind.Null, rows[1].GetProperty("bias").ValueKind);
        Assert.Equal(0.12, rows[2].GetProperty("bias").GetDouble());
    }

    [Fact]
    public void Verdicts_and_times_are_those_of_all_photographs()
    {
        Assert.Equal(["touch-up", "retake", "retake", "retake", "keep"], Json.GetProperty("verdicts").EnumerateArray().Select(v => v.GetProperty("verdict").GetString()));
        Assert.Equal((5, 3.0), (Json.GetProperty("photos").GetInt32(), Json.GetProperty("secondsPerPhotoMedian").GetDouble()));
    }

    private static IEnumerable<string> Names(JsonElement element) => element.EnumerateObject().Select(property => property.Name);

    private static BenchRun MakeRun()
    {
        int residual = Measurands.Rows.Select((measurand, i) => (measurand.Name, i)).Single(m => m.Name == "cornerResidualPx").i;
        GoodPhoto Good(string file, string family, Reply reply, Comparison compared) =>
            new(file, family, reply, Measurands.Rows.Select((_, i) => i == residual ? compared : Comparison.NotApplicable).ToImmutableArray(), []);
        return new(
            [
                Good("a.jpg", "luxator", Answer(VerdictKind.TouchUp, 1), new([new(0.12, null)], 0)),
                Good("b.jpg", "universal-curette", Refused("motion", 2), Comparison.AllMissing(1)),
            ],
            [new("c.jpg", "motion", Refused("motion", 3)), new("d.jpg", "motion", Refused("no-card", 4)), new("e.jpg", "motion", Answer(VerdictKind.Keep, 5))]);
    }

    private static Reply Answer(VerdictKind verdict, double seconds) => new(null, null, null, null, verdict, seconds);

    private static Reply Refused(string code, double seconds) => new(null, new Refusal(code, "why", "what to do"), null, null, VerdictKind.Retake, seconds);
}
