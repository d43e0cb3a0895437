using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;
using EdgeLens.Measuring.ToeView;
using Xunit;

namespace EdgeLens.Tests.Angles;

/// <summary>The plan of a toe from a face view's outline, checked against the ellipse that the outline was made from.</summary>
public sealed class ToePlanTests
{
    private const double A = 0.40, B = 0.55, Length = 5;

    /// <summary>At the normal's azimuth ψ an ellipse of semi-axes a and b has the place (a² cos ψ, b² sin ψ) / √(a² cos² ψ + b² sin² ψ) (any handbook of geometry).</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Places_by_azimuth_are_those_of_the_ellipse_whichever_edge_the_outline_begins_with(bool leftFirst)
    {
        ToePlan plan = ToePlan.Of(Face(leftFirst, 0), 0.01)!;

        Assert.Equal(A, plan.HalfWidthMm.Value, 0.003);
        Assert.Equal(A * Math.Sqrt(0.006 * 0.006 + 0.01 * 0.01), plan.HalfWidthMm.StandardUncertainty, 1e-4);
        for (double psi = 15; psi <= 165; psi += 15)
        {
            (double sin, double cos) = Math.SinCos(psi * Math.PI / 180);
            double length = Math.Sqrt(A * A * cos * cos + B * B * sin * sin);
            (double x, double s) = plan.At(psi * Math.PI / 180);
            // The tangent over 0.2 mm of arc and steps of 5.6° leave some micrometres.
            Assert.Equal(A * A * cos / length, x, 0.006);
            Assert.Equal(B - B * B * sin / length, s, 0.006);
        }
    }

    [Fact]
    public void A_nick_in_a_side_does_not_disturb_the_toe()
    {
        ToePlan whole = ToePlan.Of(Face(true, 0), 0.01)!, nicked = ToePlan.Of(Face(true, 0.06), 0.01)!;

        for (double psi = 20; psi <= 160; psi += 10)
            Assert.Equal(whole.At(psi * Math.PI / 180).X, nicked.At(psi * Math.PI / 180).X, 0.004);
    }

    /// <summary>By hand: seen from 100 mm before the apex, what lies 4 mm behind it is smaller by 100 / 104.</summary>
    [Fact]
    public void Perspective_makes_the_sides_converge()
    {
        ToePlan plan = ToePlan.Of(Face(true, 0), 0.01)!, seen = plan.InPerspective(100);

        (double x, double s) = plan.Places(1, 0, true).First();
        (double seenX, double seenS) = seen.Places(1, 0, true).First();
        Assert.Equal(x * 100 / (100 + s), seenX, 1e-9);
        Assert.Equal(s * 100 / (100 + s), seenS, 1e-9);
        Assert.True(seen.SideSlope < plan.SideSlope - 0.003);
    }

    [Fact]
    public void Behind_is_the_inverse_of_the_places()
    {
        foreach (double psi in new[] { 0.3, 0.9, 1.5, 2.2, 2.9 })
        {
            (double x, double s) = ToePlan.Nominal.At(psi);
            Assert.Equal(s, ToePlan.Nominal.Behind(x), 1e-9);
        }
    }

    [Fact]
    public void An_outline_that_does_not_reach_round_the_toe_gives_no_plan()
    {
        FaceMeasurement face = Face(true, 0);
        Assert.Null(ToePlan.Of(face with { Outline = face.Outline with { Points = face.Outline.Points[..200], ApexIndex = 199 } }, 0.01));
    }

    /// <summary>Worked example: Barlow et al., from 1, 3, 2, 4 the pair 3, 2 is pooled to 2.5; a falling series becomes its mean.</summary>
    [Theory]
    [InlineData(new double[] { 1, 3, 2, 4 }, new double[] { 1, 2.5, 2.5, 4 })]
    [InlineData(new double[] { 3, 2, 1 }, new double[] { 2, 2, 2 })]
    [InlineData(new double[] { 1, 2, 3 }, new double[] { 1, 2, 3 })]
    public void Neighbours_that_fall_are_pooled_to_their_mean(double[] values, double[] rising) => Assert.Equal(rising, IsotonicRegression.Rising(values));

    /// <summary>A U of straight sides and half an ellipse, with a nick so deep in the left side.</summary>
    private static FaceMeasurement Face(bool leftFirst, double nickMm)
    {
        List<BladePoint> right = [];
        for (double z = 1; z < Length - B; z += 0.01) right.Add(new(A + 0.01 * (Length - B - z), z));
        for (double t = 0; t <= Math.PI; t += 0.004) right.Add(new(A * Math.Cos(t), Length - B + B * Math.Sin(t)));
        right.AddRange(right.Where(p => p.XMm > 0 && p.ZMm < Length - B).Reverse().Select(p => new BladePoint(-p.XMm, p.ZMm)).ToArray());
        BladePoint[] nicked = [.. right.Select(p => p.XMm > 0.2 && Math.Abs(p.ZMm - 3) < 0.15 ? p with { XMm = p.XMm - nickMm * (1 - Math.Abs(p.ZMm - 3) / 0.15) } : p)];
        if (!leftFirst) Array.Reverse(nicked);
        ImmutableArray<OutlinePoint> points = [.. nicked.Select((p, i) => new OutlinePoint(p, i * 0.01, new Vector2(-1, 0), 2))];
        int apex = Enumerable.Range(0, points.Length).MaxBy(i => points[i].Position.ZMm);
        return new(new("face.jpg", "", 100, 100), InstrumentFamily.UniversalCurette, new(0.01, 0.006, 100, 0.05, new Measured(0, 1), new Measured(100, 1), new Measured(0, 1)), null!,
            new Outline(points, apex, default), [], 0, Figure.Missing("-"), Figure.Missing("-"), Figure.Missing("-"), [], null!);
    }
}
