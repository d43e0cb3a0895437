using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Edges;

public sealed class EdgeProfileModelTests
{
    // A wide band, not too high: its plateau must stay below full scale for every blur.
    private static readonly RoundingLight Panels = new SteelLight(0.8, 0.1, 38, 24, 0.1, "drawn").Seen(0);

    /// <summary>
    /// Blur moves light and loses none: the line's integral above what lies there without it is κ r (A - F) whatever the blur (measurands.md, reflection width).
    /// Tolerance: the tone table's 2e-5 is at most 1e-4 of light (its steepest 0.44 tone per light at 0.8, so 5e-5) over the 26 px of the grid's sum of random signs.
    /// </summary>
    [Theory]
    [InlineData(0.6)]
    [InlineData(1.0)]
    [InlineData(1.8)]
    [InlineData(2.5)]
    public void The_line_has_the_same_equivalent_width_under_every_blur(double blurPx)
    {
        const double radius = 3, face = 0.2;
        EdgeShape shape = new(0, radius, face, 0, 0.02);
        EdgeOptics optics = new(blurPx, new(0));
        double[] lit = [.. new EdgeProfileModel().Evaluate(shape, optics, Panels, true)], dark = [.. new EdgeProfileModel().Evaluate(shape, optics, Panels, false)];
        double integral = 0.25 * lit.Zip(dark).Sum(p => LinearLight.Decode(p.First) - LinearLight.Decode(p.Second));
        double kappa = Math.Sin(38 * Math.PI / 180) - Math.Sin(14 * Math.PI / 180); // tilts (90 - 38 ± 24) / 2
        Assert.Equal(kappa * radius * (0.8 - face), integral, 1e-3);
    }

    /// <summary>The same from pixels, as ISO-style practice would sum them: a picture with the line less one without, in linear light.</summary>
    [Theory]
    [InlineData(0.7)]
    [InlineData(1.5)]
    public void The_drawn_line_has_that_equivalent_width_too(double blurPx)
    {
        DrawnEdge lit = new() { RadiusPx = 3, FaceLevel = 0.2, BlurPx = blurPx, Light = Panels };
        using Mat with = lit.Tones(), without = (lit with { Light = Panels with { LitLevel = 0 } }).Tones();
        double sum = 0;
        for (int x = 0; x < DrawnEdge.SizePx; x++) sum += LinearLight.Decode(with.RowSpan<float>(18)[x]) - LinearLight.Decode(without.RowSpan<float>(18)[x]);
        Assert.Equal(Panels.BandWidth * 3 * 0.6, sum, 1e-3);
    }

    /// <summary>
    /// Grid, tables and interpolation against the drawing. Error of the cubic interpolation between nodes a quarter of a pixel apart: 0.02 (h/σ)^4 of the step, 0.02 levels at σ = 0.9
    /// and 0.1 at the curved foot of the tone curve; the pixel's square is no Gaussian (its fourth cumulant -1/120): 5e-4 of the step, 0.1 levels. 0.4 levels hold.
    /// </summary>
    [Theory]
    [InlineData(0, 0.9, 0)]
    [InlineData(1, 0.9, 0.4)]
    [InlineData(4, 1.2, 0.3)]
    [InlineData(9, 1.5, 0)]
    public void The_model_says_what_the_drawing_shows(double radiusPx, double blurPx, double amount)
    {
        DrawnEdge edge = new() { RadiusPx = radiusPx, BlurPx = blurPx, SharpeningAmount = amount, Light = Panels, DirectionDeg = 17, PlacePx = 0.3 };
        using Mat tones = edge.Tones();
        ReadOnlySpan<double> profile = new EdgeProfileModel().Evaluate(new(0.3, radiusPx, edge.FaceLevel, 0, edge.GroundLevel), EdgeFitterTests.Optics(edge), Panels, true);
        double worst = 0;
        EdgePlace place = edge.Supposed;
        for (int y = 10; y < 26; y++)
        {
            ReadOnlySpan<float> row = tones.RowSpan<float>(y);
            for (int x = 10; x < 26; x++)
            {
                double across = (x - place.Centre.X) * place.Outward.X + (y - place.Centre.Y) * place.Outward.Y;
                if (Math.Abs(across) <= EdgeProfileModel.ReachPx) worst = Math.Max(worst, Math.Abs(row[x] - EdgeProfileModel.Place(across).In(profile)));
            }
        }
        Assert.True(255 * worst < 0.4, FormattableString.Invariant($"{255 * worst:g3} levels"));
    }
}
