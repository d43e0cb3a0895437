using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.FaceView;
using EdgeLens.Tests.Edges;
using EdgeLens.Tests.Silhouettes;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.FaceView;

/// <summary>The end of the ground face as a drawn step of brightness across the blade.</summary>
public sealed class FaceEndFinderTests
{
    private const double BlurPx = 1;

    // The blade's z runs along the picture's x: card (X, Y) from the window's middle to (x, z) = (-Y, X), a quarter turn.
    private static readonly Similarity BladeFromCard = new(1, Math.PI / 2, SquareView.Card.Window.Centre.YMm, -SquareView.Card.Window.Centre.XMm);

    /// <summary>
    /// Stated: a quarter of a pixel for the place of the half level, and noise. 24 trials: the mean within 3 u / √24, and every error within 3 u
    /// (expected beyond: 0.06 of 24).
    /// </summary>
    [Theory]
    [InlineData(0.25, 0.15)]
    [InlineData(0.20, 0.26)]
    public void A_step_is_found_within_its_uncertainty(double faceLevel, double neckLevel)
    {
        Random random = new(21);
        List<double> normal = [];
        for (int k = 0; k < 24; k++)
        {
            double zMm = 0.6 * random.NextDouble() - 0.3;
            if (Find(faceLevel, neckLevel, zMm, random) is not { } found) continue;
            Assert.InRange(found.StandardUncertainty, 0.2 * SquareView.MmPerPx, SquareView.MmPerPx);
            normal.Add((found.Value - zMm) / found.StandardUncertainty);
        }
        string text = FormattableString.Invariant($"{normal.Count} found, mean {normal.Average():f2}, greatest {normal.Max(Math.Abs):f2} standard uncertainties");
        Assert.True(normal.Count >= 23, text);
        Assert.True(Math.Abs(normal.Average()) < 3 / Math.Sqrt(24), text);
        Assert.True(normal.Max(Math.Abs) < 3, text);
    }

    [Fact]
    public void A_face_that_runs_on_has_no_end() => Assert.Null(Find(0.25, 0.25, 0, new Random(22)));

    /// <summary>Below 3 % of the face's light a smudge could have made it.</summary>
    [Fact]
    public void A_step_of_a_hundredth_is_no_end() => Assert.Null(Find(0.25, 0.2475, 0, new Random(23)));

    private static Measured? Find(double faceLevel, double neckLevel, double zMm, Random random)
    {
        using Mat tones = new(SquareView.HeightPx, SquareView.WidthPx, MatType.CV_32FC1, Scalar.All(0.1));
        double middle = (SquareView.WidthPx - 1) / 2.0;
        float[] row = [.. Enumerable.Range(0, SquareView.WidthPx).Select(x =>
        {
            double share = 0.5 * MathNet.Numerics.SpecialFunctions.Erfc(-(x - middle - zMm / SquareView.MmPerPx) / BlurPx / Math.Sqrt(2));
            return (float)LinearLight.Encode(neckLevel + (faceLevel - neckLevel) * share);
        })];
        int half = (int)(0.45 / SquareView.MmPerPx);
        for (int y = SquareView.HeightPx / 2 - half; y < SquareView.HeightPx / 2 + half; y++) row.CopyTo(tones.RowSpan<float>(y));
        using Mat grey = DrawnEdge.Photograph(tones, 1.2, random);
        List<OutlinePoint> points = [];
        for (double z = 0; z < 5; z += 0.02) points.Add(new(new(0.45, z), z, new(-1, 0), 1));
        for (double z = 5; z > 0; z -= 0.02) points.Add(new(new(-0.45, z), 10.9 - z, new(1, 0), 1));
        return FaceEndFinder.Find(grey, SquareView.Calibration, new([.. points], 250, BladeFromCard), 0, BlurPx * SquareView.MmPerPx);
    }
}
