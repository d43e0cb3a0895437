using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Measuring.HeelSection;
using Xunit;

namespace EdgeLens.Tests.Angles;

/// <summary>A scaler's corners at the heel, drawn with exactly known place and angles.</summary>
public sealed class HeelCornerTests
{
    private const double Degree = Math.PI / 180;

    /// <summary>
    /// The drawn figure has what the model has, so the corner's error is the fit's alone: without bias, and below half a pixel. Stated is more, since real necks are bowed: every error lies within k = 2.
    /// </summary>
    [Fact]
    public void Corners_and_internal_angles_are_those_that_were_drawn()
    {
        List<double> places = [], angles = [];
        foreach ((double turn, double left, double right) in new[] { (0.0, 75.0, 75.0), (3.0, 70.0, 80.0), (-4.0, 82.0, 68.0) })
            for (int seed = 0; seed < 8; seed++)
            {
                DrawnHeel drawn = new(turn, left, right, 1.1, 0.05, 0.8, 100 * seed + (int)turn);
                HeelCorner l = Fit(drawn, -1), r = Fit(drawn, 1);
                foreach ((HeelCorner own, HeelCorner other, int side, double angle) in new[] { (l, r, -1, left), (r, l, 1, right) })
                {
                    places.Add(own.Place.Y - drawn.Corner(side).Y);
                    Vector2 chord = new Vector2(other.Place.X - own.Place.X, other.Place.Y - own.Place.Y).Unit;
                    angles.Add(Math.Acos(chord.Dot(own.Lateral.Line.Along)) / Degree - angle);
                    Assert.InRange(Math.Abs(places[^1]), 0, 2 * own.SigmaPx);
                }
            }

        Assert.InRange(places.Average(), -0.2, 0.2);
        Assert.InRange(Math.Sqrt(places.Average(e => e * e)), 0, 0.5);
        Assert.InRange(angles.Average(), -0.2, 0.2);
        Assert.InRange(Math.Sqrt(angles.Average(e => e * e)), 0, 0.5);
    }

    [Fact]
    public void A_heel_out_of_focus_is_refused_with_what_to_focus_on()
    {
        Assert.Equal("heel-blurred", Refused(new DrawnHeel(0, 75, 75, 3.5, 0.05, 0.8, 1)).Code);
    }

    [Fact]
    public void A_side_as_dark_as_the_window_is_refused()
    {
        Assert.Equal("corner-dark", Refused(new DrawnHeel(0, 75, 75, 1.1, 0.015, 0.8, 1)).Code);
    }

    /// <summary>A blade turned to one side shows its bowed edge beside the neck: there is no corner where two lines meet.</summary>
    [Theory]
    [InlineData(18)]
    [InlineData(30)]
    public void A_corner_behind_the_bowed_edge_is_refused(double foldPx)
    {
        Assert.Equal("corner-hidden", Refused(new DrawnHeel(0, 75, 75, 1.1, 0.05, 0.8, 1, foldPx)).Code);
    }

    private static HeelCorner Fit(DrawnHeel drawn, int side)
    {
        Assert.True(HeelCorner.Fit(drawn.Picture, drawn.Neck(side), DrawnHeel.MmPerPx, default).TryGet(out HeelCorner? corner, out Refusal? refusal), refusal?.Reason);
        return corner!;
    }

    private static Refusal Refused(DrawnHeel drawn)
    {
        Assert.False(HeelCorner.Fit(drawn.Picture, drawn.Neck(1), DrawnHeel.MmPerPx, default).TryGet(out _, out Refusal? refusal));
        return refusal!;
    }
}
