using System.Collections.Immutable;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using EdgeLens.Tests.FaceView;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.Drift;

/// <summary>Outside: made truth with known noise (a curette by formula), and the √n of a mean.</summary>
public sealed class BaselineAverageTests
{
    private static readonly ShapedBlade Blade = new();

    [Fact]
    public void The_mean_of_four_has_half_the_error_and_says_so()
    {
        Random random = new(3);
        double one = 0, four = 0, stated = 0, statedOne = 0;
        const int runs = 8;
        for (int run = 0; run < runs; run++)
        {
            ImmutableArray<FaceMeasurement> photographs = [.. Enumerable.Range(0, 4).Select(_ => Photograph(random))];
            BaselineAverage average = BaselineAverage.Of(photographs);
            Assert.Equal(4, average.Count);
            Assert.Empty(average.LeftOut);
            // The window of 0.08 mm is about one correlation width of the fast noise (0.03 √(2π) = 0.075 mm): its 2 µm stay, with the slow 1.0 they make 2.24. The registration takes
            // up a little. Some 30 independent places: ± 3 · 2.24 / √(2 · 30).
            Assert.InRange(average.ScatterUm.Measured!.Value.Value, 2.24 - 0.87, 2.24 + 0.87);
            foreach (double station in new[] { 1.0, 2.0, 3.0, 4.0 })
            {
                double truth = 2 * Blade.HalfWidthAt(Blade.LengthMm - station);
                (StationWidth first, StationWidth mean) = (Width(photographs[0], station), Width(average.Mean, station));
                one += Math.Pow(first.WidthMm.Value - truth, 2);
                four += Math.Pow(mean.WidthMm.Value - truth, 2);
                stated += Math.Pow(mean.LocalStandardUncertaintyMm, 2);
                statedOne += Math.Pow(first.LocalStandardUncertaintyMm, 2);
            }
        }
        // Ratio of variances 1/4 predicted; with about 2 x 8 independent widths each (neighbours share the slow noise) an F of 16 and 16 degrees of freedom stays within a factor 3.4 (99 %).
        Assert.InRange(four / one, 0.25 / 3.4, 0.25 * 3.4);
        Assert.Equal(0.25, stated / statedOne, 0.05);
        // And what is stated holds: chi-square of about 16, within 99.8 %.
        Assert.InRange(four / stated, 0.25, 2.6);
    }

    [Fact]
    public void One_photograph_is_its_own_mean()
    {
        FaceMeasurement only = Photograph(new(4));
        BaselineAverage average = BaselineAverage.Of([only]);
        Assert.Same(only, average.Mean);
        Assert.Null(average.ScatterUm.Measured);
    }

    [Fact]
    public void A_photograph_of_another_family_is_left_out_with_the_reason()
    {
        FaceMeasurement a = Photograph(new(5)), b = Photograph(new(6)) with { Family = InstrumentFamily.UniversalScaler };
        BaselineAverage average = BaselineAverage.Of([a, b]);
        Assert.Equal(1, average.Count);
        Assert.Equal("other-family", Assert.Single(average.LeftOut).Code);
    }

    private static StationWidth Width(FaceMeasurement face, double station) => face.Widths.Single(w => w.StationMm == station);

    private static FaceMeasurement Photograph(Random random)
    {
        FamilyTraits traits = FamilyTraits.Of(InstrumentFamily.UniversalCurette);
        Outline outline = FrameFinder.Find(Blade.Photograph(new Similarity(1, 0.1 * random.NextDouble(), 10, 20), random), traits).Value with { Noise = ShapedBlade.Noise };
        FaceFigures figures = FaceFigures.Measure(outline, traits, 0.0005, null, outline.Noise);
        FaceMeasurement like = SyntheticCases.Sharp.AsNew();
        return like with
        {
            Outline = outline,
            Widths = figures.Widths,
            StationOriginZMm = figures.ApexZMm.Value,
            ToeRadiusUm = figures.ToeRadiusUm,
            Scale = like.Scale with { RelativeStandardUncertainty = 0.0005 },
        };
    }
}
