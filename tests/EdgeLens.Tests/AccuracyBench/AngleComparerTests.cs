using EdgeLens.Accuracy.Comparing;
using EdgeLens.Accuracy.Truth;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.AccuracyBench;

/// <summary>The bench's comparers of toe and side views against a made truth.</summary>
public sealed class AngleComparerTests
{
    /// <summary>
    /// By hand, wedge 45°: a perfect tip is 50 µm thick 50 µm behind its point; with a rounding of 20 µm (circle's centre 48.28 µm behind the corner, tip 28.28 µm) that
    /// place is 78.28 µm behind the corner, past the rounding.
    /// </summary>
    [Theory]
    [InlineData(0, 50)]
    [InlineData(20, 78.28)]
    public void The_true_thickness_of_a_tip_is_that_of_its_rounded_section(double radiusUm, double thicknessUm)
    {
        AngleMeasurement seen = SyntheticAngles.Side(44.5) with { TipThicknessUm = new Measured(60, 1) };

        Assert.Equal(60 - thicknessUm, Compare("tipThicknessUm", radiusUm, seen).Samples.Single().Error, 2);
    }

    [Fact]
    public void An_angle_is_compared_where_the_family_has_it_and_missing_where_it_was_refused()
    {
        Assert.Equal(-0.5, Compare("wedgeAngleDeg", 3, SyntheticAngles.Side(44.5)).Samples.Single().Error, 9);
        Assert.Equal(1, Compare("wedgeAngleDeg", 3, null).Missing);
        Assert.Equal((0, 0), (Compare("faceAngleDeg", 3, SyntheticAngles.Side(44.5)).Samples.Length, Compare("faceAngleDeg", 3, null).Missing));
    }

    [Theory]
    [InlineData("left", "right", 1, 0, 1)]
    [InlineData("left", "left", 1, 0, 0)]
    [InlineData(null, "left", 0, 1, null)]
    [InlineData("left", null, 0, 0, null)]
    public void What_is_told_is_right_wrong_missing_or_no_case(string? told, string? truth, int count, int missing, int? error)
    {
        Comparison compared = Measurands.Told(told, truth);

        Assert.Equal((count, missing), (compared.Samples.Length, compared.Missing));
        if (error is { } e) Assert.Equal(e, compared.Samples[0].Error);
    }

    private static Comparison Compare(string name, double radiusUm, AngleMeasurement? seen)
    {
        WorkingEndTruth truth = MadeFace.Truth(edgeRadiusUm: _ => radiusUm).WorkingEnd with { WedgeAngleDeg = 45 };
        return Measurands.Angles.Single(a => a.Name == name).Compare(new AngleCase(FamilyTraits.Of(InstrumentFamily.Luxator), truth, seen));
    }
}
