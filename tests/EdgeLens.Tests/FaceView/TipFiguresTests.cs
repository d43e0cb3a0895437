using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using Xunit;

namespace EdgeLens.Tests.FaceView;

/// <summary>Scaler: pointed, 40 µm tip. Luxator: an arc of 2.2 mm across 2.9 mm, meeting the sides in corners. Truth is the formula.</summary>
public sealed class TipFiguresTests
{
    private static readonly ShapedBlade Scaler = new() { LengthMm = 6.2, HalfHeelMm = 0.62, HalfToeMm = 0.06, EndMm = 0.10, HalfNeckMm = 0.42 };

    private static readonly ShapedBlade Luxator = new()
    {
        LengthMm = 11,
        HalfHeelMm = 1.5,
        HalfToeMm = 1.45,
        TipArcMm = 2.2,
        HalfNeckMm = 1.2,
        NeckMm = 2.5,
        ShankWidening = 0.05,
        Nicks = [],
    };

    [Fact]
    public void Tip_width_of_a_scaler_is_unbiased_and_scatters_as_stated()
    {
        Trials trials = new(Scaler, InstrumentFamily.UniversalScaler, 31, 80);
        trials.Hold((f, _) => f.TipWidthUm.Measured!.Value, 2000 * Scaler.HalfWidthAt(Scaler.LengthMm - 0.25), 0.5);
        Assert.All(trials.Figures, f => Assert.Empty(f.Nicks));
        Assert.All(trials.Figures, f => Assert.Contains("no rounded toe", f.ToeRadiusUm.WhyMissing!, StringComparison.Ordinal));
    }

    [Fact]
    public void Tip_arc_radius_of_a_luxator_is_unbiased_and_scatters_as_stated()
    {
        Trials trials = new(Luxator, InstrumentFamily.Luxator, 32, 80);
        trials.Hold((f, _) => f.TipArcRadiusMm.Measured!.Value, 2.2, 0.0005);
        // A flat tip: the crest of the noise over ±0.09 mm (2.2 mm radius falls by 2 µm there) lies farther out than the tip, the circle does not.
        trials.Hold((f, apex) => new(f.ApexZMm.Value - apex, f.ApexZMm.StandardUncertainty), 0, 0.0002);
        // The whole arc is the tip edge: 2 asin(1.45/2.2) · 2.2 mm.
        Assert.All(trials.Figures, f => Assert.Equal(4.4 * Math.Asin(1.45 / 2.2), f.Parts.Count(p => p == EdgePart.Toe) * ShapedBlade.SpacingMm, 0.25));
    }

    [Fact]
    public void A_short_tip_arc_has_an_uncertain_radius_and_says_so()
    {
        // The same width on a radius of 6 mm spans ±14° instead of ±41.2°. The sd of a radius grows as 1/φ² for a short arc: (41.2/14)² = 8.7 times less certain.
        Measured flat = Measure(Luxator with { TipArcMm = 6 }).TipArcRadiusMm.Measured!.Value, round = Measure(Luxator).TipArcRadiusMm.Measured!.Value;
        Assert.InRange(Math.Abs(flat.Value - 6), 0, 2.5 * flat.StandardUncertainty);
        Assert.InRange(flat.StandardUncertainty / round.StandardUncertainty, 0.7 * 8.7, 1.4 * 8.7);
    }

    [Fact]
    public void Scale_enters_every_length_and_the_local_part_stands_apart()
    {
        Outline outline = FrameFinder.Find(Luxator.Photograph(Similarity.Identity, new(5)), FamilyTraits.Of(InstrumentFamily.Luxator)).Value;
        FaceFigures sure = FaceFigures.Measure(outline, FamilyTraits.Of(InstrumentFamily.Luxator), 0, null, ShapedBlade.Noise);
        FaceFigures unsure = FaceFigures.Measure(outline, FamilyTraits.Of(InstrumentFamily.Luxator), 0.006, null, ShapedBlade.Noise);
        foreach ((StationWidth a, StationWidth b) in sure.Widths.Zip(unsure.Widths))
        {
            Assert.Equal(a.LocalStandardUncertaintyMm, b.LocalStandardUncertaintyMm);
            Assert.Equal(Quadrature.Sum(a.LocalStandardUncertaintyMm, 0.006 * a.WidthMm.Value), b.WidthMm.StandardUncertainty, 12);
        }
        Assert.Equal(Quadrature.Sum(sure.TipArcRadiusMm.Measured!.Value.StandardUncertainty, 0.006 * 2.2), unsure.TipArcRadiusMm.Measured!.Value.StandardUncertainty, 1e-4);
    }

    private static FaceFigures Measure(ShapedBlade blade) =>
        FaceFigures.Measure(
            FrameFinder.Find(blade.Photograph(Similarity.Identity, new(5)), FamilyTraits.Of(InstrumentFamily.Luxator)).Value, FamilyTraits.Of(InstrumentFamily.Luxator), 0, null, ShapedBlade.Noise);
}
