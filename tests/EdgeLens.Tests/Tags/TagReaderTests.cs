using System.Collections.Immutable;
using System.Numerics;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Imaging.Tags;
using EdgeLens.Measuring.Inspection;
using EdgeLens.Tests.HouseRules;
using Xunit;

namespace EdgeLens.Tests.Tags;

/// <summary>Tags in the demo photographs: read in every view, never read where there is none, and no burden to the measuring.</summary>
public sealed class TagReaderTests
{
    private static readonly CardDescription Card = EdgeLens.Tests.CardDrawings.Cards.Default;

    [Theory]
    [InlineData("C-07/2025-01-10-face.jpg")]
    [InlineData("C-07/2025-01-10-toe.jpg")]
    [InlineData("C-12/2025-02-01-toe.jpg")]
    [InlineData("S-03/2025-05-05-face.jpg")]
    [InlineData("L-02/2025-02-01-side.jpg")]
    [InlineData("L-02/2025-08-08-face.jpg")]
    [InlineData("E-05/2025-05-05-face.jpg")]
    public void A_tag_beside_the_window_is_read_in_every_view_however_it_lies(string photograph)
    {
        byte[] file = Demo(photograph);
        foreach (TaggedPhotograph.Strip strip in (TaggedPhotograph.Strip[])[TaggedPhotograph.Usual(17), TaggedPhotograph.Usual(204, 6), TaggedPhotograph.Usual(731, -4), new(999, 41, 36.4, 180)])
            Assert.Equal([strip.Number], Read(TaggedPhotograph.Jpeg(file, Card, strip)));
    }

    [Fact]
    public void Two_tags_are_both_told_the_upper_of_two_that_overlap_and_none_of_another_size()
    {
        byte[] file = Demo("C-07/2025-01-10-face.jpg");
        Assert.Equal([17, 18], Read(TaggedPhotograph.Jpeg(file, Card, new(18, 46, 17.5), TaggedPhotograph.Usual(17))));
        Assert.Empty(Read(TaggedPhotograph.Jpeg(file, Card, TaggedPhotograph.Usual(17) with { Size = 1.12 })));
        Assert.Empty(Read(TaggedPhotograph.Jpeg(file, Card, TaggedPhotograph.Usual(17) with { Size = 0.88 })));
        Assert.Equal([18], Read(TaggedPhotograph.Jpeg(file, Card, TaggedPhotograph.Usual(17), new(18, 47.5, 32.4))));
    }

    [Fact]
    public void No_tag_is_read_in_a_photograph_without_one()
    {
        string[] files = [.. Directory.EnumerateFiles(Repository.PathOf("demo-images"), "*.jpg", SearchOption.AllDirectories)];
        Assert.True(files.Length > 15);
        foreach (string file in files) Assert.Empty(Read(File.ReadAllBytes(file)));
    }

    /// <summary>
    /// The tag hides about eight of the card's squares: fewer corners, so that scale and edges may move, but by less than they are uncertain. A figure of the same blade in the same pixels shares
    /// all other errors; half a standard uncertainty is what the change may cost before the stated one would be too small by an eighth.
    /// </summary>
    [Theory]
    [InlineData("C-07/2025-01-10-face.jpg", InstrumentFamily.UniversalCurette)]
    [InlineData("C-07/2025-06-20-face.jpg", InstrumentFamily.UniversalCurette)]
    [InlineData("S-03/2025-05-05-face.jpg", InstrumentFamily.UniversalScaler)]
    [InlineData("L-02/2025-05-05-face.jpg", InstrumentFamily.Luxator)]
    public void Measuring_does_not_suffer_from_the_tag(string photograph, InstrumentFamily family)
    {
        byte[] file = Demo(photograph);
        FaceMeasurement plain = Face(file, family), tagged = Face(TaggedPhotograph.Jpeg(file, Card, TaggedPhotograph.Usual(17, 3)), family);
        Assert.True(plain.Widths.Length > 0);
        foreach ((StationWidth a, StationWidth b) in plain.Widths.Zip(tagged.Widths)) Near(a.WidthMm, b.WidthMm, $"width at {a.StationMm}");
        foreach ((EdgeLightSummary a, EdgeLightSummary b) in plain.Light.Edges.Zip(tagged.Light.Edges))
        {
            Near(a.ReflectingFractionPercent, b.ReflectingFractionPercent, $"light on the {a.Part} edge");
            Near(a.Radius.GreatestUm, b.Radius.GreatestUm, $"radius of the {a.Part} edge");
        }
        Assert.True(tagged.Scale.RelativeStandardUncertainty < 1.05 * plain.Scale.RelativeStandardUncertainty);

        static void Near(Figure a, Figure b, string what)
        {
            Assert.Equal(a.Measured is null, b.Measured is null);
            if (a.Measured is { } x && b.Measured is { } y) Assert.True(Math.Abs(x.Value - y.Value) <= 0.5 * x.StandardUncertainty, $"{what}: {x.Value} became {y.Value} (u = {x.StandardUncertainty})");
        }
    }

    /// <summary>OpenCV's predefined_dictionaries: 4 wrong bits can be corrected in DICT_6X6_1000, so that any two markers, however turned, differ in at least 9.</summary>
    [Fact]
    public void Any_two_tags_differ_in_nine_bits_however_they_are_turned()
    {
        ulong[][] words = [.. Enumerable.Range(0, TagDesign.Dictionary.MarkerCount).Select(Turns)];
        int least = 36;
        for (int i = 0; i < words.Length; i++)
            for (int k = i + 1; k < words.Length; k++)
                foreach (ulong turned in words[k]) least = Math.Min(least, BitOperations.PopCount(words[i][0] ^ turned));
        Assert.Equal(9, least);
    }

    /// <summary>
    /// The chance of a random square to be within t bits of a tag is 4 · 1000 · Σ C(36, k) / 2³⁶ as long as tags keep 2t + 1 apart. Seen at t = 4, where it is 3.9 · 10⁻³ and 20 000 random
    /// squares show it; at t = 1, which is what is read, it is 2.2 · 10⁻⁶.
    /// </summary>
    [Fact]
    public void A_random_square_is_a_tag_as_seldom_as_counted()
    {
        ulong[] words = [.. Enumerable.Range(0, TagDesign.Dictionary.MarkerCount).SelectMany(Turns)];
        Random random = new(1);
        const int trials = 20_000;
        int hits = Enumerable.Range(0, trials).Count(_ => (ulong)random.NextInt64(1L << 36) is var square && words.Any(w => BitOperations.PopCount(w ^ square) <= 4));
        double expected = trials * 4000.0 * (1 + 36 + 630 + 7140 + 58905) / Math.Pow(2, 36);
        Assert.InRange(hits, expected - 4 * Math.Sqrt(expected), expected + 4 * Math.Sqrt(expected));
    }

    private static ulong[] Turns(int number)
    {
        ImmutableArray<bool> cells = TagDesign.Dictionary.Cells(number);
        return [.. Enumerable.Range(0, 4).Select(turn => (from row in Enumerable.Range(0, 6) from column in Enumerable.Range(0, 6) select At(row, column, turn)).Aggregate(0UL, (word, white) => word << 1 | (white ? 1UL : 0)))];

        bool At(int row, int column, int turn) => turn == 0 ? cells[(row + 1) * 8 + column + 1] : At(5 - column, row, turn - 1);
    }

    private static ImmutableArray<int> Read(byte[] file)
    {
        using Photograph photo = PhotographReader.Read(file, "photograph").Value;
        return CardStage.Calibrate(photo, Card, PrintMeasurement.NotMeasured(Card), null).TryGet(out CardCalibration? calibration, out _) ? TagReader.Read(photo, calibration) : [];
    }

    private static FaceMeasurement Face(byte[] file, InstrumentFamily family)
    {
        using Photograph photo = PhotographReader.Read(file, "photograph").Value;
        return new FaceInspector(Card, new()).Measure(photo, FamilyTraits.Of(family), PrintMeasurement.NotMeasured(Card), new(0, Quadrature.FromLimits(1.5)), null, null).Value.Measurement;
    }

    private static byte[] Demo(string name) => File.ReadAllBytes(Path.Combine(Repository.PathOf("demo-images"), name));
}
