using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using Xunit;

namespace EdgeLens.Tests.FaceView;

public sealed class FrameFinderTests
{
    private static readonly FamilyTraits Curette = FamilyTraits.Of(InstrumentFamily.UniversalCurette);

    /// <summary>A mark that tells left from right.</summary>
    private static readonly ShapedBlade Marked = new() { Nicks = [(true, 3.0, 0.15, 0.08)] };

    [Theory]
    [InlineData(0, false)]
    [InlineData(0, true)]
    [InlineData(75, true)]
    [InlineData(180, false)]
    [InlineData(-110, false)]
    public void Left_stays_left_however_the_blade_lies_and_whichever_way_round_its_points_come(double angleDeg, bool reversed)
    {
        Similarity cardFromBlade = new(1, angleDeg * Math.PI / 180, 41, 27);
        Outline outline = Find(Marked, cardFromBlade, reversed);
        Similarity found = outline.BladeFromCard * cardFromBlade;
        // Half the nick's area, √(2π) · 0.15 · 0.08 / 2 = 0.015 mm², pulls the least-squares midline over 3.24 mm: by 0.015/3.24 = 5 µm, and 0.3 mm off its middle
        // by 0.015 · 0.3 / (3.24³/12) = 1.6 mrad. The heel's place shifts the stretch by some tenths of a millimetre: a third more or less.
        Assert.InRange(Math.Abs(found.AngleRad), 0.0010, 0.0022);
        Assert.InRange(found.Apply(new(0, 2.7)).X, 0.003, 0.007);
        Assert.True(outline.Points[0].Position.XMm > 0 && outline.Points[^1].Position.XMm < 0);
        Assert.Equal(1, found.Scale);
        OutlinePoint left = outline.Points.Take(outline.ApexIndex).MinBy(p => Math.Abs(p.Position.ZMm - found.Apply(new(0, 3)).Y));
        Assert.Equal(Marked.HalfWidthAt(3.0) - 0.15, left.Position.XMm, 0.01);
    }

    [Fact]
    public void In_a_picture_with_the_toe_up_left_is_left()
    {
        // Card: X right, Y down. Toe up, face to the camera: the blade's z is -Y, and the user's left is -X.
        Outline outline = Find(Marked, new(1, Math.PI, 41, 27), false);
        CardPoint first = CardOf(outline, 0), apex = CardOf(outline, outline.ApexIndex);
        Assert.True(apex.YMm < first.YMm - 4, "the toe must be up in this test");
        Assert.True(first.XMm < 41, "the left heel must be left of the axis");
    }

    [Fact]
    public void Inward_normals_point_into_the_steel_and_arcs_grow_along_the_U()
    {
        Outline outline = Find(Marked, Similarity.Identity, false);
        Assert.All(outline.Points, p => Assert.Equal(1, p.Inward.Length, 12));
        Assert.All(outline.Points.Where(p => p.Position.ZMm < 4.9), p => Assert.True(p.Inward.X * p.Position.XMm < 0, $"{p}"));
        Assert.InRange(outline.Apex.Inward.Y, -1, -0.99);
        Assert.All(outline.Points.Zip(outline.Points.Skip(1)), pair => Assert.True(pair.Second.ArcMm > pair.First.ArcMm));
    }

    [Fact]
    public void The_axis_scatters_as_its_noise_predicts()
    {
        // Midline over 0.6 L = 3.24 mm. A process with correlation length l has the spectral width √(2π) l: per side and source the slope's variance is
        // 12 s² √(2π) l / L³ (white noise of the same density); l = 1 mm against 3.2 mm is not white, so an upper bound. Two sides halve the midline's variance.
        double fast = 12 * 4 * Math.Sqrt(2 * Math.PI) * 0.03 / Math.Pow(3.24, 3), slow = 12 * 2.25 * Math.Sqrt(2 * Math.PI) * 1.0 / Math.Pow(3.24, 3);
        double bound = Math.Sqrt((fast + slow) / 2) / 1000;
        Random random = new(4);
        double[] angles = [.. Enumerable.Range(0, 60).Select(_ => (FrameFinder.Find(new ShapedBlade().Photograph(Similarity.Identity, random), Curette).Value.BladeFromCard.AngleRad))];
        double rms = Math.Sqrt(angles.Average(a => a * a));
        Assert.InRange(rms, 0.3 * bound, 1.2 * bound);
    }

    [Theory]
    [InlineData(InstrumentFamily.UniversalCurette)]
    [InlineData(InstrumentFamily.AreaSpecificCurette)]
    [InlineData(InstrumentFamily.Luxator)]
    public void The_heel_is_found_within_its_uncertainty_and_no_nick_is_taken_for_the_neck(InstrumentFamily family)
    {
        ShapedBlade blade = family switch
        {
            InstrumentFamily.AreaSpecificCurette => new() { Lean = 0.9, Nicks = [(false, 1.2, 0.11, 0.08)] },
            InstrumentFamily.Luxator => new() { LengthMm = 11, HalfHeelMm = 1.5, HalfToeMm = 1.45, EndMm = 1.3, HalfNeckMm = 1.2, NeckMm = 2.5, ShankWidening = 0.05 },
            // A short waist that soon widens to the shank must not pass for a nick either.
            _ => new() { HalfHeelMm = 0.46, HalfToeMm = 0.40, NeckMm = 0.45, ShankWidening = 0.22, Nicks = [(true, 2.0, 0.15, 0.12)] },
        };
        Outline outline = FrameFinder.Find(blade.Photograph(Similarity.Identity, new(8)), FamilyTraits.Of(family)).Value;
        double heel = outline.BladeFromCard.Apply(new(0, 0)).Y;
        Assert.InRange(Math.Abs(heel), 0, 2 * outline.HeelStandardUncertaintyMm!.Value);
        Assert.InRange(outline.HeelStandardUncertaintyMm!.Value, 0.05, 0.3);
        // Drift is registered on the shank's root too: the outline goes on behind the heel, by a millimetre at most.
        Assert.InRange(outline.Points.Min(p => p.Position.ZMm), -1, 0);
    }

    [Fact]
    public void What_is_no_blade_is_refused()
    {
        SilhouettePoint[] circle = [.. Enumerable.Range(0, 300).Select(i => new SilhouettePoint(new(Math.Cos(i * 0.01), Math.Sin(i * 0.01)), 2))];
        Assert.Equal("outline-no-axis", FrameFinder.Find([.. circle], Curette).Refusal!.Code);
        Assert.Equal("outline-too-short", FrameFinder.Find([.. circle.Take(50)], Curette).Refusal!.Code);
        Assert.Equal("outline-not-finite", FrameFinder.Find([.. circle, new(new(double.NaN, 0), 2)], Curette).Refusal!.Code);
        Assert.Equal("outline-not-finite", FrameFinder.Find([.. circle, new(new(0, 0), 0)], Curette).Refusal!.Code);
        Assert.Equal("outline-no-axis", FrameFinder.Find([.. Enumerable.Range(0, 200).Select(i => new SilhouettePoint(new(0.01 * i, 0), 2))], Curette).Refusal!.Code);
    }

    private static Outline Find(ShapedBlade blade, Similarity cardFromBlade, bool reversed) =>
        FrameFinder.Find(blade.Photograph(cardFromBlade, new(1), reversed, 0.01), Curette).Value;

    private static CardPoint CardOf(Outline outline, int index)
    {
        BladePoint p = outline.Points[index].Position;
        Vector2 card = outline.BladeFromCard.Inverse().Apply(new(p.XMm, p.ZMm));
        return new(card.X, card.Y);
    }
}
