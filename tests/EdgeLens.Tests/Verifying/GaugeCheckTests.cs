using EdgeLens.Assessment.Verification;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Tests.Commands;
using EdgeLens.Tests.HouseRules;
using Xunit;

namespace EdgeLens.Tests.Verifying;

/// <summary>Outside: ISO 9626:2016 table 1 (from memory), ISO 14253-1's zones.</summary>
public sealed class GaugeCheckTests
{
    [Theory]
    // U = 6 µm; 21G: 0.800 to 0.830 mm. Clear inside from 0.806 to 0.824, clear outside below 0.794 and above 0.836, between them neither.
    [InlineData(0.8061, CheckResult.Pass)]
    [InlineData(0.8239, CheckResult.Pass)]
    [InlineData(0.8059, CheckResult.Undecided)]
    [InlineData(0.8241, CheckResult.Undecided)]
    [InlineData(0.7941, CheckResult.Undecided)]
    [InlineData(0.7939, CheckResult.Fail)]
    [InlineData(0.8361, CheckResult.Fail)]
    public void A_needle_is_judged_by_both_limits_with_the_uncertainty(double diameter, CheckResult expected) =>
        Assert.Equal(expected, new GaugeCheck(RoundGauge.Needle("21g")!, new(diameter, 0.003), new([])).Result);

    [Fact]
    public void A_result_that_cannot_be_decided_says_why()
    {
        Assert.Contains("uncertainty is too large", new GaugeCheck(RoundGauge.Needle("21G")!, new(0.815, 0.010), new([])).Words, StringComparison.Ordinal);
        Assert.Contains("take another one", new GaugeCheck(RoundGauge.Needle("21G")!, new(0.829, 0.002), new([])).Words, StringComparison.Ordinal);
        Assert.Contains("fail", new GaugeCheck(RoundGauge.Pin(1)!, new(1.1, 0.002), new([])).Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Needle_sizes_are_those_of_the_standard()
    {
        Assert.Equal(["25G", "23G", "22G", "21G", "20G", "19G", "18G"], RoundGauge.Needles.Select(n => n.Name[7..]));
        Assert.All(RoundGauge.Needles, n => Assert.True(n.LeastMm < n.GreatestMm));
        Assert.Equal((0.860, 0.920), (RoundGauge.Needle("20G")!.LeastMm, RoundGauge.Needle("20G")!.GreatestMm));
        Assert.Null(RoundGauge.Needle("14G"));
        Assert.Null(RoundGauge.Pin(5));
    }

    [Fact]
    public void A_profile_keeps_its_verifications_and_says_when_the_next_is_due()
    {
        LensProfile profile = new("made", 2400, 1800, new(8000, 1199.5, 899.5, 0.1), [400, 0, 0, 0, 0, 0.01, 0, 0, 0, 0, 100, 0, 0, 0, 0, 100], 6, 0.05, new(2025, 1, 10));
        LensVerification first = new(new(2025, 1, 10), "needle 21G", new(0.814, 0.003), 0.8, 0.83, "pass", new(2025, 7, 10));
        LensVerification second = first with { Date = new(2025, 7, 1), Due = new(2026, 1, 1), Result = "undecided" };
        LensProfile read = LensProfile.FromJson((profile with { Verifications = [first, second] }).ToJson()).Value;
        Assert.Equal([first, second], read.Verifications);
        Assert.Equal(new DateOnly(2026, 1, 1), read.VerificationDue);
        Assert.Null(profile.VerificationDue);
        Assert.Equal([first, second], read.For(2 * read.WidthPx, 2 * read.HeightPx).Value.Verifications);
        Assert.Equal("lens-profile-file", LensProfile.FromJson((profile with { Verifications = [first with { Result = "good" }] }).ToJson()).Refusal!.Code);
    }

    [Fact]
    public void The_command_wants_one_gauge_and_warns_of_sharps()
    {
        Assert.Equal(1, ProgramRun.Of("verify", "x.jpg").ExitCode);
        Assert.Equal(1, ProgramRun.Of("verify", "x.jpg", "--needle", "21G", "--pin", "1").ExitCode);
        Assert.Equal(1, ProgramRun.Of("verify", "x.jpg", "--pin", "9").ExitCode);
        Assert.Contains("SHARPS", ProgramRun.Of("verify", "--help").Out, StringComparison.Ordinal);
        // A working end in the window is no gauge.
        ProgramRun run = ProgramRun.Of("verify", Repository.PathOf("demo-images/C-07/2025-01-10-face.jpg"), "--needle", "21G");
        Assert.Equal(2, run.ExitCode);
        Assert.Contains("rod-not-dark", run.Error, StringComparison.Ordinal);
    }
}
