using EdgeLens.Accuracy.Comparing;
using EdgeLens.Accuracy.Statistics;
using EdgeLens.Accuracy.Truth;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using Xunit;

namespace EdgeLens.Tests.AccuracyBench;

/// <summary>Each comparer against a made truth and a program with a known error: the bench must report that error, and nothing that is not there.</summary>
public sealed class ComparerTests
{
    private static readonly FaceTruth AsNew = MadeFace.Truth();

    [Theory]
    [InlineData(0.003, 0.3)]
    [InlineData(-0.002, -0.2)]
    [InlineData(0, 0)]
    public void An_outline_that_stands_outside_is_found_outside_by_as_much(double outsideMm, double expectedPx)
    {
        ErrorStatistics s = Sum(new OutlineComparer(), MadeFace.Case(AsNew, MadeFace.Seen(AsNew, outsideMm)));
        // Both are polylines: sagitta of 16 µm steps on 0.5 mm is 0.006 px. The lens term of the made camera changes the scale by 6e-5 at most.
        Assert.Equal(expectedPx, s.Bias!.Value, 0.005);
        Assert.True(s.Sd < 0.01, $"sd {s.Sd}");
        Assert.Equal(0, s.Missing);
        // Stated 2 µm are 0.2 px.
        Assert.Equal(Math.Pow(expectedPx / 0.2, 2), s.MeanSquaredNormalisedError!.Value, 0.1);
    }

    [Fact]
    public void Outline_that_was_not_seen_is_missing()
    {
        // The first 2 mm of the left side: 1 mm of that lies forward of the heel fifth. 700 points on 10.57 mm.
        ErrorStatistics s = Sum(new OutlineComparer(), MadeFace.Case(AsNew, MadeFace.Seen(AsNew, fromArcMm: 2)));
        Assert.InRange(s.Missing, 65, 68);
        Assert.Equal(Sum(new OutlineComparer(), MadeFace.Case(AsNew, null)).Missing, s.Count + s.Missing);
    }

    [Fact]
    public void The_other_side_of_the_blade_is_never_taken_for_this_one()
    {
        Curve straight = new([new(0, 0), new(0, 1), new(0, 2)]);
        Assert.Equal(-0.4, straight.Crossing(new(0.4, 1), new(1, 0), new(0, 1), 1)!.Value.Offset, 1e-12);
        Assert.Null(straight.Crossing(new(0.4, 1), new(1, 0), new(0, -1), 1));
        Assert.Null(straight.Crossing(new(0.4, 1), new(1, 0), new(0, 1), 0.3));
    }

    [Fact]
    public void The_true_scale_is_that_of_the_made_camera()
    {
        Assert.Equal(MadeFace.MmPerPx, AsNew.MmPerPx, MadeFace.MmPerPx * 1e-4);
        Comparison scale = Measurands.All.Single(m => m.Name == "scalePercent").Compare(MadeFace.Case(AsNew, MadeFace.Seen(AsNew)));
        Assert.Equal(0.2, scale.Samples.Single().Error, 0.01);
        Assert.Equal(0.8, scale.Samples.Single().StandardUncertainty!.Value, 1e-9);
    }

    [Fact]
    public void An_edge_loss_is_compared_at_the_same_place_of_the_blade_whatever_the_program_s_arc_starts_with()
    {
        FaceTruth today = MadeFace.Truth(lossMm: 0.04);
        SeenFace baseline = MadeFace.Seen(AsNew, fromArcMm: 0.6);
        // 40 µm are gone on the left and round the toe; the program says 3 µm too much, but on the far right 10 too much.
        EdgeLossSample[] samples = [.. Enumerable.Range(0, 190).Select(i => i * 0.05).Select(arc => new EdgeLossSample(arc, EdgePart.Left, 0, new Measured(arc + 0.6 < 8 ? 43 : 50, 2)))];
        ErrorStatistics s = Sum(new EdgeLossComparer(), MadeFace.Case(today, MadeFace.Seen(today, lossMm: 0.04), new(AsNew, baseline), Drift(samples)));
        int right = samples.Count(sample => sample.ArcMm + 0.6 is >= 8 and < 9.57), left = samples.Count(sample => sample.ArcMm + 0.6 is >= 1 and < 8);
        Assert.InRange(s.Count, left + right - 1, left + right + 1);
        Assert.Equal((left * 3.0 + right * 10) / (left + right), s.Bias!.Value, 0.1);
        Assert.Equal(0, s.Missing);
    }

    [Fact]
    public void Edge_loss_that_was_not_given_is_missing()
    {
        FaceTruth today = MadeFace.Truth(lossMm: 0.04);
        EdgeLossSample[] samples = [.. Enumerable.Range(0, 100).Select(i => new EdgeLossSample(i * 0.05, EdgePart.Left, 0, i < 60 ? new Measured(40, 2) : Figure.Missing("dark")))];
        ErrorStatistics s = Sum(new EdgeLossComparer(), MadeFace.Case(today, MadeFace.Seen(today), new(AsNew, MadeFace.Seen(AsNew)), Drift(samples)));
        // Arc 1.00 to 9.57 are a measurand, 0.05 mm each; given up to 2.95.
        Assert.Equal(40, s.Count);
        Assert.InRange(s.Missing, 130, 133);
    }

    [Fact]
    public void A_true_loss_is_positive_where_metal_is_gone() => // outline 0.04 mm inside the as-new one
        Assert.Equal(40, EdgeLossComparer.TrueLossUm(AsNew.Outline, AsNew.Outline.PlaceAt(3), MadeFace.Truth(lossMm: 0.04).Outline)!.Value, 1e-6);

    [Fact]
    public void Nicks_are_found_missed_and_invented()
    {
        FaceTruth truth = MadeFace.Truth(nicks: [new("left", 3.2, 60, 0.3), new("right", 2.1, 110, 0.35)]);
        FaceCase face = MadeFace.Case(truth, MadeFace.Seen(truth, nicks: [(3.25, 52), (6.5, 30)]));
        ErrorStatistics found = Sum(new NickComparer(), face), invented = Sum(new InventedNickComparer(), face);
        Assert.Equal((1, 1, -8.0), (found.Count, found.Missing, found.Bias!.Value));
        Assert.Equal((1, 30.0), (invented.Count, invented.Bias!.Value));
    }

    [Fact]
    public void A_nick_on_the_other_side_is_not_the_one_that_is_meant()
    {
        FaceTruth truth = MadeFace.Truth(nicks: [new("right", 3.2, 60, 0.3)]);
        FaceCase face = MadeFace.Case(truth, MadeFace.Seen(truth, nicks: [(3.2, 60)]));
        Assert.Equal((0, 1), (Sum(new NickComparer(), face).Count, Sum(new NickComparer(), face).Missing));
    }

    [Theory]
    [InlineData(8.0, 5.0, 1, 0, 0)]
    [InlineData(4.0, 5.0, 1, 0, 1)]
    [InlineData(null, 5.0, 0, 1, null)]
    public void A_dull_edge_must_reflect_more_than_when_it_was_new(double? nowUm, double? thenUm, int count, int missing, int? wrong)
    {
        FaceTruth dull = MadeFace.Truth(lossMm: 0.001, edgeRadiusUm: arc => arc is > 2 and < 4 ? 30 : 3);
        ErrorStatistics s = Sum(new SharpFromDullComparer(), MadeFace.Case(dull, MadeFace.Seen(dull, leftLightUm: nowUm), new(AsNew, MadeFace.Seen(AsNew, leftLightUm: thenUm))));
        Assert.Equal((count, missing, wrong), (s.Count, s.Missing, (int?)s.Bias));
    }

    [Fact]
    public void An_edge_that_is_still_sharp_is_no_case_of_sharp_against_dull() =>
        Assert.Equal(Comparison.NotApplicable, new SharpFromDullComparer().Compare(MadeFace.Case(MadeFace.Truth(0.04), null, new(AsNew, null))));

    [Fact]
    public void A_refused_photograph_counts_as_missing_with_all_it_should_have_given()
    {
        FaceCase refused = MadeFace.Case(MadeFace.Truth(0.04), null, new(AsNew, null));
        int Missing(string name) => Measurands.All.Single(m => m.Name == name).Compare(refused).Missing;
        Assert.Equal((2, 2, 1, 1, 1), (Missing("widthAtStationMm"), Missing("widthLossUm"), Missing("lengthLossUm"), Missing("toeRadiusUm"), Missing("cornerResidualPx")));
        Assert.Equal((0, 0), (Missing("tipWidthUm"), Missing("tipArcRadiusMm"))); // a curette has neither
        Assert.True(Missing("outlineNormalPx") > 500 && Missing("edgeLossUm") > 160);
    }

    private static ErrorStatistics Sum(IMeasurandComparer comparer, FaceCase face) => ErrorStatistics.Of([comparer.Compare(face)]);

    private static DriftMeasurement Drift(EdgeLossSample[] samples)
    {
        Figure none = Figure.Missing("not made");
        return new(Similarity.Identity, 1, [.. samples], none, none, [], none, none, none);
    }
}
