using EdgeLens.Imaging.Edges;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Edges;

/// <summary>Seeded photographs of one edge in many directions and at many places between pixels: errors of the fitted place against the stated uncertainty.</summary>
internal sealed class EdgeTrials
{
    public const int Count = 400;

    /// <summary>Standard deviation of the added noise, grey levels; a sensor's at base sensitivity (common practice).</summary>
    public const double NoiseLevels = 1.2;

    private const int Views = 16;
    private readonly List<(double ErrorPx, double SigmaPx)> _runs = [];

    public EdgeTrials(DrawnEdge edge, Func<EdgeBlock, EdgeFit?> fit, int seed)
    {
        Random random = new(seed);
        for (int view = 0; view < Views; view++)
        {
            DrawnEdge seen = edge with { DirectionDeg = 360 * random.NextDouble(), PlacePx = random.NextDouble() - 0.5 };
            using Mat tones = seen.Tones();
            for (int k = 0; k < Count / Views; k++)
            {
                using Mat grey = DrawnEdge.Photograph(tones, NoiseLevels, random);
                EdgeFit found = fit(seen.Block(grey, seen.Light)) ?? throw new InvalidOperationException("No edge was found.");
                _runs.Add((found.Shape.OffsetPx - seen.PlacePx, found.OffsetSigmaPx));
            }
        }
    }

    /// <summary>Noise of a tone value, 0..1, rounding to whole levels (1/12) included.</summary>
    public static double NoiseOfTone => Math.Sqrt(NoiseLevels * NoiseLevels + 1 / 12.0) / 255;

    public double MeanPx => _runs.Average(r => r.ErrorPx);

    public double ScatterPx => Math.Sqrt(_runs.Average(r => Math.Pow(r.ErrorPx - MeanPx, 2)));

    public double StatedPx => Math.Sqrt(_runs.Average(r => r.SigmaPx * r.SigmaPx));

    /// <summary>Bias, scatter and coverage; the bands are those of 400 independent normal errors, each left in 2 of 1000 cases or fewer.</summary>
    public void Hold()
    {
        int covered = _runs.Count(r => Math.Abs(r.ErrorPx) <= 2 * r.SigmaPx);
        string found = FormattableString.Invariant($"bias {MeanPx:g3}, scatter {ScatterPx:g4}, stated {StatedPx:g4} px, {covered} of {Count} within k = 2");
        Assert.True(Math.Abs(MeanPx) <= 3 * StatedPx / Math.Sqrt(Count), found);
        // Chi square of 400: 3.09/√800 = 10.9 %.
        Assert.True(ScatterPx / StatedPx is > 0.891 and < 1.109, found);
        Assert.True(covered is >= 369 and <= 394, found);
    }
}
