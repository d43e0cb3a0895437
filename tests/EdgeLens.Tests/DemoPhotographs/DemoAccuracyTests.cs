using EdgeLens.Accuracy.Comparing;
using EdgeLens.Accuracy.Running;
using EdgeLens.Accuracy.Statistics;
using EdgeLens.Accuracy.Truth;
using EdgeLens.Assessment.Decision;
using EdgeLens.Tests.HouseRules;
using Xunit;

namespace EdgeLens.Tests.DemoPhotographs;

/// <summary>
/// The accuracy bench over the demo photographs, whose truth is exactly known (demo-images/README.md). Limits are what the program itself predicts (its stated
/// uncertainties) and what issue and measurands ask for, never what was found: no later change loses accuracy unseen.
/// </summary>
public sealed class DemoAccuracyTests
{
    // All tests of this class hold the same run against different limits.
    private static readonly Lazy<BenchRun> Demo = new(() => new Bench(DatasetReader.Open(Repository.PathOf("demo-images")), _ => { }).Run());

    [Fact]
    public void Every_good_photograph_is_measured_and_the_bad_one_refused_for_the_right_reason()
    {
        Assert.Equal(16, Demo.Value.Good.Length);
        Violations.MustBeNone(Demo.Value.Good.Where(p => p.Reply is { Seen: null, Angles: null }).Select(p => $"{p.File}: {p.Reply.Refusal}"), "These photographs are good and were refused:");
        Violations.MustBeNone(Demo.Value.Good.Where(p => p.Reply.DriftRefusal is not null).Select(p => $"{p.File}: {p.Reply.DriftRefusal}"), "These can be compared with their baseline and were not:");
        Assert.All(Demo.Value.ToRefuse, p => Assert.Equal(RefusalResult.RightReason, p.Result));
    }

    /// <summary>Limits of the project's first milestone: outline bias 0.10 px and scatter 0.25 px, corners 0.15 px.</summary>
    [Fact]
    public void Outline_and_corners_keep_to_their_limits()
    {
        ErrorStatistics outline = Of("outlineNormalPx");

        Assert.InRange(outline.Bias!.Value, -0.10, 0.10);
        Assert.InRange(outline.Sd!.Value, 0, 0.25);
        Assert.Equal(0, outline.Missing);
        // A residual is an error without a sign: its worst photograph counts.
        Assert.All(Samples("cornerResidualPx"), s => Assert.InRange(s.Error, 0, 0.15));
    }

    /// <summary>
    /// The errors of one photograph share scale, height and registration: they are about as independent as there are photographs, 10 of them. Beyond 2.5 standard
    /// uncertainties a normal error lies once in 80 times; one photograph too many is let pass by asking 95 of 100 figures and not all.
    /// </summary>
    [Theory]
    [InlineData("scalePercent")]
    [InlineData("widthAtStationMm")]
    [InlineData("toeRadiusUm")]
    [InlineData("tipArcRadiusMm")]
    [InlineData("widthLossUm")]
    [InlineData("lengthLossUm")]
    [InlineData("areaLossPercent")]
    [InlineData("edgeLossUm")]
    [InlineData("nickDepthUm")]
    public void Figures_lie_within_two_and_a_half_stated_uncertainties(string measurand)
    {
        ErrorSample[] samples = Samples(measurand);

        Assert.NotEmpty(samples);
        Assert.Equal(0, Of(measurand).Missing);
        int within = samples.Count(s => Math.Abs(s.Error) <= 2.5 * s.StandardUncertainty!.Value);
        Assert.True(within >= 0.95 * samples.Length, $"{measurand}: {within} of {samples.Length} within 2.5 u.");
    }

    /// <summary>Issue of the angles: the view right every time, the working edge right every time; each angle within 2.5 u, as above.</summary>
    [Fact]
    public void Views_and_working_edges_are_told_right_and_angles_lie_within_what_they_state()
    {
        Assert.Equal(16, Samples(Measurands.View).Length);
        Assert.All(Samples(Measurands.View).Concat(Samples(Measurands.WorkingEdge)), s => Assert.Equal(0, s.Error));
        ErrorSample[] angles = [.. Measurands.Angles.SelectMany(a => Samples(a.Name))];
        // Every face and wedge angle; of the internal ones the as-new curette and the area-specific one show too little of their sides.
        Assert.Equal((4, 2), (Samples("faceAngleDeg").Length, Samples("wedgeAngleDeg").Length));
        Assert.True(angles.Length >= 10, $"{angles.Length} angles");
        Assert.All(angles, a => Assert.InRange(Math.Abs(a.Error), 0, 2.5 * a.StandardUncertainty!.Value));
    }

    /// <summary>
    /// Uncertainties that cover everything say nothing. What the definitions leave open and the unknown height of ± 1.5 mm at 80 to 150 mm distance
    /// (measurands.md) explain at most: width 2.5 %, width loss 15 µm, length loss 50 µm, toe radius 30 µm, as standard uncertainties.
    /// </summary>
    [Theory]
    [InlineData("widthAtStationPercent", 2.5)]
    [InlineData("widthLossUm", 15)]
    [InlineData("lengthLossUm", 50)]
    [InlineData("toeRadiusUm", 30)]
    public void Stated_uncertainties_stay_useful(string measurand, double greatest)
    {
        double[] stated = [.. Samples(measurand).Select(s => s.StandardUncertainty!.Value).Order()];

        Assert.InRange(stated[stated.Length / 2], 0, greatest);
    }

    [Fact]
    public void Sharp_and_dull_are_told_apart_in_every_pair() => Assert.All(Samples("toldSharpFromDull"), s => Assert.Equal(0, s.Error));

    /// <summary>Truth: as-new edges have 3 µm of radius; the dull ones 30 to 45 µm; C-07 has lost more than 20 % of its width in the end.</summary>
    [Theory]
    [InlineData("C-07/2025-01-10-face.jpg", VerdictKind.Keep)]
    [InlineData("C-07/2025-06-20-face.jpg", VerdictKind.Resharpen)]
    [InlineData("C-07/2025-11-15-face.jpg", VerdictKind.Retire)]
    [InlineData("C-12/2025-02-01-face.jpg", VerdictKind.Keep)]
    [InlineData("C-12/2025-05-05-face.jpg", VerdictKind.Resharpen)]
    [InlineData("S-03/2025-02-01-face.jpg", VerdictKind.Keep)]
    [InlineData("S-03/2025-05-05-face.jpg", VerdictKind.Resharpen)]
    [InlineData("L-02/2025-05-05-face.jpg", VerdictKind.Resharpen)]
    public void The_verdict_is_what_the_truth_calls_for(string file, VerdictKind verdict) => Assert.Equal(verdict, Demo.Value.Good.Single(p => p.File == file).Reply.Verdict);

    private static ErrorStatistics Of(string measurand) => ErrorStatistics.Of(Comparisons(measurand));

    private static ErrorSample[] Samples(string measurand) => [.. Comparisons(measurand).SelectMany(c => c.Samples)];

    private static IEnumerable<Comparison> Comparisons(string measurand)
    {
        int index = Measurands.Rows.Select(m => m.Name).ToList().IndexOf(measurand);
        Assert.True(index >= 0, $"The bench has no measurand {measurand}.");
        return Demo.Value.Good.Select(p => p.Comparisons[index]);
    }
}
