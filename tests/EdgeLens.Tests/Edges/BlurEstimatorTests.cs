using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Edges;

public sealed class BlurEstimatorTests
{
    private const int Blocks = 10;

    // As the program takes it for any photograph. Without it a rounding would widen the edge and show no line: its radius and the blur would be one unknown.
    private static readonly RoundingLight Panels = new SteelLight(0.9, 0.1, 38, 24, 0.1, "drawn").Seen(0);

    /// <summary>
    /// The estimator counts one independent noise value per three pixels (a phone's sharpening and JPEG correlate them); the noise here is white, so that estimates scatter by the
    /// stated uncertainty over √3. 16 trials: chi square at 99.8 % allows ± 3.09/√32 = 55 %. Bias: each block's own radius, never below 0, takes up a part of its noise; what 3 % of blur
    /// do to a place is 0.03 px (docs/physics/edge-profile.md), less than the 0.05 px that every place is given for the model.
    /// </summary>
    [Theory]
    [InlineData(0.8, 0.0, 1)]
    [InlineData(1.3, 0.4, 2)]
    public void The_blur_of_sharp_lit_edges_is_found_within_its_uncertainty(double blurPx, double amount, int seed)
    {
        const int trials = 16;
        Random random = new(seed);
        DrawnEdge edge = new() { BlurPx = blurPx, SharpeningAmount = amount, RadiusPx = 0.6, Light = Panels };
        Measured[] found = [.. Enumerable.Range(0, trials).Select(_ => BlurEstimator.Estimate(Sample(edge, EdgeTrials.NoiseLevels, random), new(amount)))];
        double mean = found.Average(m => m.Value), predicted = found.Average(m => m.StandardUncertainty) / Math.Sqrt(BlurEstimator.PixelsPerDegree);
        double scatter = Math.Sqrt(found.Sum(m => Math.Pow(m.Value - mean, 2)) / (trials - 1));
        string text = FormattableString.Invariant($"mean {mean:f4}, scatter {scatter:f4}, predicted {predicted:f4} px");
        Assert.True(scatter / predicted is > 0.45 and < 1.55, text);
        Assert.True(Math.Abs(mean - blurPx) < 0.03 * blurPx, text);
    }

    /// <summary>
    /// Independent method on a bare step under the same blur, as ISO 12233 does it: the slanted edge's pixels, in linear light, laid out by their distance from the edge in bins of a quarter of a pixel; the derivative
    /// of that step is the line spread, its second moment (less 1/192 for the bin's own width and 1/192 for the difference) the square of the blur. Without noise; rounding to 8 bits
    /// leaves 0.3 levels per pixel, 0.002 of the light at the step's foot after averaging, at most 9 px away: 0.02 px.
    /// </summary>
    [Theory]
    [InlineData(0.8)]
    [InlineData(1.4)]
    public void A_slanted_edges_line_spread_has_the_same_width(double blurPx)
    {
        DrawnEdge edge = new() { BlurPx = blurPx, DirectionDeg = 5, FaceLevel = 0.5, GroundLevel = 0.1 }, lit = new() { BlurPx = blurPx, RadiusPx = 0.6, Light = Panels };
        using Mat tones = edge.Tones();
        Random random = new(3);
        double[] light = new double[72], counts = new double[72];
        for (int repeat = 0; repeat < 8; repeat++)
        {
            using Mat grey = DrawnEdge.Photograph(tones, 0.5, random);
            for (int y = 4; y < 32; y++)
            {
                ReadOnlySpan<byte> row = grey.RowSpan<byte>(y);
                for (int x = 4; x < 32; x++)
                {
                    int bin = (int)Math.Floor(4 * ((x - 17.5) * edge.Outward.X + (y - 17.5) * edge.Outward.Y + 9));
                    if (bin is < 0 or >= 72) continue;
                    light[bin] += LinearLight.OfTone[row[x]];
                    counts[bin]++;
                }
            }
        }
        double[] spread = [.. Enumerable.Range(0, 71).Select(i => light[i] / counts[i] - light[i + 1] / counts[i + 1])];
        // Beyond four blurs the line spread is nothing but noise, and the second moment would weigh it most.
        int[] near = [.. Enumerable.Range(0, 71).Where(i => Math.Abs((i - 35) / 4.0) < 4 * blurPx)];
        double total = near.Sum(i => spread[i]), centre = near.Sum(i => spread[i] * i) / total;
        double moment = Math.Sqrt(near.Sum(i => spread[i] * Math.Pow((i - centre) / 4, 2)) / total - 2 / 192.0);
        double fitted = BlurEstimator.Estimate(Sample(lit, 0.5, random), new(0)).Value;
        Assert.Equal(blurPx, moment, 0.03);
        // Both errors: 3 % as above, and the moment's.
        Assert.Equal(moment, fitted, Math.Sqrt(0.03 * 0.03 + 0.03 * 0.03 * blurPx * blurPx));
    }

    private static EdgeBlock[] Sample(DrawnEdge edge, double noiseLevels, Random random)
    {
        EdgeBlock[] blocks = new EdgeBlock[Blocks];
        for (int i = 0; i < Blocks; i++)
        {
            DrawnEdge seen = edge with { DirectionDeg = 360 * random.NextDouble(), PlacePx = random.NextDouble() - 0.5 };
            using Mat tones = seen.Tones(), grey = DrawnEdge.Photograph(tones, noiseLevels, random);
            blocks[i] = seen.Block(grey, Panels);
        }
        return blocks;
    }
}
