using EdgeLens.Geometry.Figures;
using EdgeLens.Measuring.Inspection;
using EdgeLens.Measuring.Quality;
using Xunit;

namespace EdgeLens.Tests.Quality;

/// <summary>Each limit from both sides. Tilt limit: measurands.md, "tilt up to 15° from square".</summary>
public sealed class CaptureGateTests
{
    private static readonly InspectorOptions Options = new();

    [Theory]
    [InlineData(0.5, 5, 0.3, null)]
    [InlineData(0.9, 5, 0.3, null)]
    [InlineData(0.91, 5, 0.3, "overexposed")]
    [InlineData(0.05, 5, 0.3, null)]
    [InlineData(0.049, 5, 0.3, "underexposed")]
    [InlineData(0.5, 15, 0.3, null)]
    [InlineData(0.5, 15.5, 0.3, null)] // beyond, but not by its own uncertainty
    [InlineData(0.5, 15.7, 0.3, "tilted")]
    [InlineData(0.5, 15.1, 0.01, "tilted")]
    public void Exposure_and_tilt_are_held_against_their_limits(double paperLevel, double tiltDeg, double tiltSigmaDeg, string? code) =>
        Assert.Equal(code, CaptureGate.Check(paperLevel, new(tiltDeg, tiltSigmaDeg), Options)?.Code);

    [Theory]
    [InlineData(17, null)]
    [InlineData(17.1, "out-of-focus")]
    public void Blur_is_held_against_its_limit(double blurUm, string? code) => Assert.Equal(code, CaptureGate.CheckBlur(new(blurUm, 0.5), Options)?.Code);

    [Fact]
    public void A_refusal_says_what_was_measured_which_limit_it_broke_and_what_to_do()
    {
        Refusal refusal = CaptureGate.Check(0.5, new(21, 0.4), Options)!;
        Assert.Equal((21, 15, "°"), (refusal.Figure, refusal.Limit, refusal.Unit));
        Assert.False(string.IsNullOrWhiteSpace(refusal.Advice));
    }

    [Fact]
    public void Limits_can_be_set() => Assert.Null(CaptureGate.Check(0.5, new(21, 0.4), Options with { GreatestTiltDeg = 25 }));
}
