using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using Xunit;

namespace EdgeLens.Tests.FaceView;

public sealed class NickTests
{
    private static readonly FamilyTraits Curette = FamilyTraits.Of(InstrumentFamily.UniversalCurette);

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void None_is_invented_on_a_noisy_edge_or_round_a_toe(double noiseShare)
    {
        // Even with twice the noise that the points state: 30 photographs, some 30 000 places.
        Random random = new(77);
        for (int k = 0; k < 30; k++)
            Assert.Empty(FaceFigures.Measure(FrameFinder.Find(new ShapedBlade().Photograph(Similarity.Identity, random, noiseShare: noiseShare), Curette).Value, Curette, 0, null, ShapedBlade.Noise).Nicks);
    }

    [Fact]
    public void A_ground_shoulder_beside_the_heel_is_form_and_no_nick()
    {
        // Half the length was ground by 90 µm a side and runs out over 0.8 mm: no gap, both shoulders are not at one height.
        ShapedBlade blade = new();
        GroundStep step = new(1.1, 0.8, 0.09);
        Outline outline = FrameFinder.Find([.. blade.Photograph(Similarity.Identity, new(3)).Select(step.Grind)], Curette).Value;
        Assert.Empty(FaceFigures.Measure(outline, Curette, 0, null, ShapedBlade.Noise).Nicks);
    }

    [Theory]
    [InlineData(0.060, 0.071)]
    [InlineData(0.110, 0.0825)]
    [InlineData(0.045, 0.08)]
    public void Depth_is_read_within_its_uncertainty_for_shallow_and_deep_nicks(double depthMm, double sigmaMm)
    {
        Random random = new(12);
        ShapedBlade blade = new() { Nicks = [(false, 2.4, depthMm, sigmaMm)] };
        Measured[] depths =
        [
            .. Enumerable.Range(0, 25).Select(_ =>
                Assert.Single(FaceFigures.Measure(FrameFinder.Find(blade.Photograph(Similarity.Identity, random), Curette).Value, Curette, 0, null, ShapedBlade.Noise).Nicks).DepthUm),
        ];
        Assert.True(depths.Count(d => Math.Abs(d.Value - 1000 * depthMm) <= d.ExpandedUncertainty) >= Trials.LeastCovered(25), $"mean {depths.Average(d => d.Value):0.0} µm, u {depths.Average(d => d.StandardUncertainty):0.0} µm");
    }

    [Theory]
    [InlineData(0)]
    [InlineData(35)]
    public void A_nick_on_the_round_toe_is_told_from_the_toe_s_own_curvature(double angleDeg)
    {
        // 60 µm deep, 0.1 mm wide at half depth, on a radius of 0.42 mm that turns by 14° over that width and whose window is cut at ±60°.
        Random random = new(15);
        ShapedBlade blade = new() { ToeNick = (angleDeg, 0.060, 0.045) };
        Nick[] nicks =
        [
            .. Enumerable.Range(0, 25).Select(_ =>
                Assert.Single(FaceFigures.Measure(FrameFinder.Find(blade.Photograph(Similarity.Identity, random), Curette).Value, Curette, 0, null, ShapedBlade.Noise).Nicks)),
        ];
        Assert.All(nicks, n => Assert.Equal(EdgePart.Toe, n.Part));
        Assert.True(nicks.Count(n => Math.Abs(n.DepthUm.Value - 60) <= n.DepthUm.ExpandedUncertainty) >= Trials.LeastCovered(25), $"mean {nicks.Average(n => n.DepthUm.Value):0.0} µm, u {nicks.Average(n => n.DepthUm.StandardUncertainty):0.0} µm");
        Assert.True(nicks.Average(n => n.DepthUm.StandardUncertainty) < 10);
    }

    [Theory]
    [InlineData(50)]
    [InlineData(70)]
    public void A_nick_where_the_toe_runs_into_the_side_is_found_if_read_somewhat_shallow(double angleDeg)
    {
        // There the curvature jumps from 1/0.42 mm to 0 inside the window: no polynomial of degree 4 bridges that, up to a third of the depth is lost.
        Random random = new(16);
        ShapedBlade blade = new() { ToeNick = (angleDeg, 0.060, 0.045) };
        for (int k = 0; k < 10; k++)
        {
            Nick nick = Assert.Single(FaceFigures.Measure(FrameFinder.Find(blade.Photograph(Similarity.Identity, random), Curette).Value, Curette, 0, null, ShapedBlade.Noise).Nicks);
            Assert.InRange(nick.DepthUm.Value, 38, 66);
        }
    }

    [Fact]
    public void A_dent_below_20_µm_is_not_a_nick() =>
        Assert.Empty(Measure(new ShapedBlade { Nicks = [(true, 2.4, 0.018, 0.08)] }));

    [Fact]
    public void A_dent_in_the_neck_is_not_one_of_the_blade_s_edges()
    {
        ShapedBlade dented = new() { Nicks = [(true, -0.4, 0.1, 0.06)] };
        Assert.Empty(Measure(dented));
        Assert.Single(Measure(dented with { Nicks = [(true, 1.0, 0.1, 0.06)] }));
    }

    [Fact]
    public void The_side_of_a_luxator_does_not_cut_and_has_no_nicks()
    {
        ShapedBlade luxator = new() { LengthMm = 11, HalfHeelMm = 1.5, HalfToeMm = 1.45, EndMm = 1.3, HalfNeckMm = 1.2, NeckMm = 2.5, ShankWidening = 0.05, Nicks = [(true, 9.2, 0.1, 0.08)] };
        FamilyTraits traits = FamilyTraits.Of(InstrumentFamily.Luxator);
        Assert.Empty(FaceFigures.Measure(FrameFinder.Find(luxator.Photograph(Similarity.Identity, new(2)), traits).Value, traits, 0, null, ShapedBlade.Noise).Nicks);
        // The same place is a nick on an edge that cuts.
        Assert.Single(FaceFigures.Measure(FrameFinder.Find(luxator.Photograph(Similarity.Identity, new(2)), traits).Value, Curette, 0, null, ShapedBlade.Noise).Nicks);
    }

    private static System.Collections.Immutable.ImmutableArray<Nick> Measure(ShapedBlade blade) =>
        FaceFigures.Measure(FrameFinder.Find(blade.Photograph(Similarity.Identity, new(4)), Curette).Value, Curette, 0, null, ShapedBlade.Noise).Nicks;

    /// <summary>Metal ground off both sides in front of a place, running out over a smooth step.</summary>
    private sealed record GroundStep(double FromZ, double RunMm, double LossMm)
    {
        public SilhouettePoint Grind(SilhouettePoint p)
        {
            double q = Math.Clamp((p.Place.YMm - FromZ) / RunMm, 0, 1), loss = LossMm * q * q * (3 - 2 * q);
            double x = p.Place.XMm, width = Math.Max(0, Math.Abs(x) - loss);
            return p with { Place = p.Place with { XMm = Math.Sign(x) * width } };
        }
    }
}
