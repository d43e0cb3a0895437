using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Edges;

/// <summary>The whole way from a supposed line to the silhouette, on a disc of steel: every direction, both kinds of light, blur not told.</summary>
public sealed class EdgeTracerTests
{
    private const double DiscPx = 90;
    private const int SizePx = 220;
    private const double BlurPx = 1;
    private static readonly PixelPoint Middle = new(109.3, 110.6);
    private static readonly SteelLight Panels = new(0.8, 0.1, 38, 24, 0.1, "drawn");

    /// <summary>
    /// Blocks overlap by two thirds, and light and blur are common to all, so that the errors are not independent: bias and coverage are held against the stated uncertainty
    /// itself, not against its root over the number. Blur on a curve of 90 px moves the light by sigma²/(2 R) = 0.006 px.
    /// An edge as new is 0.35 px round here (4 µm at 12 µm per pixel), dull ones 2 and 4 px.
    /// </summary>
    [Theory]
    [InlineData(0.35, true, 0.35, true, 11)]
    [InlineData(0.35, true, 2, true, 13)]
    [InlineData(0.35, true, 4, true, 17)]
    [InlineData(4, true, 4, true, 14)]
    public void A_disc_is_traced_within_its_stated_uncertainty(double leftPx, bool leftLit, double rightPx, bool rightLit, int seed)
    {
        using Mat grey = Disc(Edge(leftPx, leftLit), Edge(rightPx, rightLit), seed);
        EdgeTrace trace = EdgeTracer.Trace(grey, Supposed(), new(0), Unplaced(Panels), _ => new(0, 0));
        Assert.True(trace.Points.Length > 2 * Math.PI * DiscPx * 0.9 / 3 * 0.95);
        Hold("left", p => p.X < Middle.X - 10);
        Hold("right", p => p.X > Middle.X + 10);

        void Hold(string half, Func<PixelPoint, bool> isIn)
        {
            EdgeTracePoint[] points = [.. trace.Points.Where(p => isIn(p.Position))];
            double[] errors = [.. points.Select(p => new Vector2(p.Position.X - Middle.X, p.Position.Y - Middle.Y).Length - DiscPx)];
            double mean = errors.Average(), stated = Math.Sqrt(points.Average(p => p.SigmaPx * p.SigmaPx));
            int covered = points.Zip(errors).Count(p => Math.Abs(p.Second) <= 2 * p.First.SigmaPx);
            string found = FormattableString.Invariant(
                $"{half}: mean {mean:f3}, scatter {Math.Sqrt(errors.Average(e => e * e) - mean * mean):f3}, stated {stated:f3} px, {covered} of {errors.Length} covered, blur {trace.BlurSigmaPx.Value:f3} ± {trace.BlurSigmaPx.StandardUncertainty:f3} px, level {trace.Light.Panels[0].Light.LitLevel:f2} ± {trace.Light.Panels[0].Light.LitLevelRelativeUncertainty:p0}, radius {points.Average(p => p.RadiusPx):f2} px");
            Assert.True(Math.Abs(mean) <= 2 * stated, found);
            Assert.True(covered >= 0.92 * errors.Length, found);
            Assert.True(stated < 0.5, found);
        }
    }

    /// <summary>
    /// The level is told a fifth too low; the sharp half gives the blur, and the plateau on the dull half then gives the level: found within twice its stated
    /// uncertainty, nearer than what was told.
    /// </summary>
    [Fact]
    public void The_level_of_lit_steel_is_refined_where_the_edge_is_dull()
    {
        using Mat grey = Disc(Edge(0.35, true), Edge(5, true), 15);
        SteelLight light = EdgeTracer.Trace(grey, Supposed(), new(0), Unplaced(Panels with { LitLevel = 0.65, LitLevelRelativeUncertainty = 0.2 }), _ => new(0, 0)).Light.Panels[0].Light;
        string found = FormattableString.Invariant($"{light.LitLevel:f3} ± {light.LitLevelRelativeUncertainty:p1}");
        Assert.True(Math.Abs(light.LitLevel - 0.8) <= 2 * light.LitLevelRelativeUncertainty * light.LitLevel, found);
        Assert.True(light.LitLevelRelativeUncertainty < 0.2 && light.LitLevel > 0.7, found);
    }

    private static PanelLight Unplaced(SteelLight light) => new([new(new(0, -1), light)], false);

    private static EdgeLine Supposed()
    {
        // 1.5 px off, as a start is, and open: most of the way round.
        int count = (int)(2 * Math.PI * (DiscPx + 1.5) * 0.9);
        return EdgeLine.Through([.. Enumerable.Range(0, count).Select(i => new PixelPoint(Middle.X + (DiscPx + 1.5) * Math.Cos(i / (DiscPx + 1.5)), Middle.Y + (DiscPx + 1.5) * Math.Sin(i / (DiscPx + 1.5))))], 0);
    }

    private static DrawnEdge Edge(double radiusPx, bool isLit) => new() { RadiusPx = radiusPx, Light = Panels.Seen(0) with { LitLevel = isLit ? 0.8 : 0 } };

    /// <summary>Two halves; owned by the caller.</summary>
    private static Mat Disc(DrawnEdge left, DrawnEdge right, int seed)
    {
        using Mat tones = new(SizePx, SizePx, MatType.CV_32FC1);
        for (int y = 0; y < SizePx; y++)
        {
            Span<float> row = tones.RowSpan<float>(y);
            for (int x = 0; x < SizePx; x++)
                row[x] = (float)LinearLight.Encode((x < Middle.X ? left : right).LightAt(new Vector2(x - Middle.X, y - Middle.Y).Length - DiscPx, BlurPx));
        }
        return DrawnEdge.Photograph(tones, EdgeTrials.NoiseLevels, new Random(seed));
    }
}
