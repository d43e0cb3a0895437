using EdgeLens.Imaging.Edges;
using MathNet.Numerics.LinearAlgebra;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Edges;

/// <summary>Place of the silhouette on made edges, against the stated uncertainty and against the bound of Cramér and Rao.</summary>
public sealed class EdgeFitterTests
{
    private static readonly RoundingLight Panels = new SteelLight(0.9, 0.1, 38, 24, 0.1, "drawn").Seen(0);

    private static readonly DrawnEdge SharpUnlit = new() { SharpeningAmount = 0.3, BlurPx = 0.9 };

    /// <summary>κ r (A - F) / S = 0.374 · 1 · 0.65 / 0.23: the line's light is worth 1.06 px of the step's.</summary>
    private static readonly DrawnEdge SharpLit = new() { RadiusPx = 1, Light = Panels, BlurPx = 0.9, SharpeningAmount = 0.3 };

    private static readonly DrawnEdge DullLit = new() { RadiusPx = 4, Light = Panels, BlurPx = 1.1, SharpeningAmount = 0.2 };

    [Fact]
    public void A_sharp_edge_without_light_is_found_within_its_uncertainty() => new EdgeTrials(SharpUnlit, b => new EdgeFitter().FitStep(b, Optics(SharpUnlit)), 1).Hold();

    [Fact]
    public void A_sharp_edge_with_a_line_of_light_is_found_within_its_uncertainty() => new EdgeTrials(SharpLit, b => new EdgeFitter().Fit(b, Optics(SharpLit), true), 2).Hold();

    [Fact]
    public void A_dull_edge_with_a_broad_line_of_light_is_found_within_its_uncertainty() => new EdgeTrials(DullLit, b => new EdgeFitter().Fit(b, Optics(DullLit), true), 3).Hold();

    /// <summary>
    /// A fit without the line must be off by far more than it states, outwards, or the trials above prove nothing. (By less than the first moment's W/S: with the blur given, least squares leave much of the line in the residuals.)
    /// </summary>
    [Fact]
    public void Leaving_the_line_out_of_the_model_misplaces_the_edge()
    {
        EdgeTrials trials = new(SharpLit, b => new EdgeFitter().FitStep(b, Optics(SharpLit)), 4);
        Assert.True(trials.MeanPx > 5 * trials.StatedPx, FormattableString.Invariant($"{trials.MeanPx:g3} px, stated {trials.StatedPx:g3}"));
    }

    /// <summary>
    /// Derivation. A step S blurred by sigma, seen in white noise n at one value per pixel along a scan line, changes with its place by S g(x), g the Gaussian.
    /// Fisher's information is ∫ (S g)² dx / n² = S² / (n² 2 √π sigma), so that sd ≥ (n / S) √(2 √π sigma) (Cramér-Rao; published bound for a blurred step).
    /// A block averages 9 scan lines. The step is small enough here (0.25 to 0.35) that the tone curve is straight to a few per cent; n and S are tones.
    /// Levels and slope are unknown too and cost the rest: their share comes from the full information matrix.
    /// </summary>
    [Fact]
    public void A_plain_step_is_located_as_well_as_the_bound_of_Cramér_and_Rao_allows()
    {
        DrawnEdge step = new() { FaceLevel = 0.35, GroundLevel = 0.25, BlurPx = 1, DirectionDeg = 25 };
        EdgeTrials trials = new(step, b => new EdgeFitter().FitStep(b, Optics(step)), 5);
        double height = Imaging.Photographs.LinearLight.Encode(0.35) - Imaging.Photographs.LinearLight.Encode(0.25);
        double bound = EdgeTrials.NoiseOfTone / height * Math.Sqrt(2 * Math.Sqrt(Math.PI) * step.BlurPx) / Math.Sqrt(9);
        double withUnknownLevels = Bound(step, isRounded: false);
        string found = FormattableString.Invariant($"scatter {trials.ScatterPx:g4}, bound {bound:g4}, with unknown levels {withUnknownLevels:g4} px");
        Assert.True(trials.ScatterPx > 0.89 * bound, found);
        Assert.True(trials.ScatterPx / withUnknownLevels is > 0.88 and < 1.12, found);
        // ∫g over ±9 px projected on a constant takes (1/18) / 0.282 = 20 % of the information, the face's slope half as much again: 1.36 in sd by the integrals across the edge alone.
        Assert.Equal(1.36, withUnknownLevels / bound, 0.05);
    }

    /// <summary>The stated uncertainty against the inverse information of the drawn pictures themselves, differentiated in place, radius, levels and slope. 5 %: the count of pixels in a block varies with its direction.</summary>
    [Theory]
    [InlineData(1, 0.9, 0.3)]
    [InlineData(2.5, 1.0, 0.0)]
    [InlineData(4, 1.1, 0.2)]
    public void The_stated_uncertainty_of_a_lit_edge_is_its_Cramér_Rao_bound(double radiusPx, double blurPx, double amount)
    {
        DrawnEdge edge = new() { RadiusPx = radiusPx, Light = Panels, BlurPx = blurPx, SharpeningAmount = amount, DirectionDeg = 25, PlacePx = 0.2 };
        Random random = new(6);
        using Mat tones = edge.Tones();
        double variance = 0;
        const int n = 40;
        for (int k = 0; k < n; k++)
        {
            using Mat grey = DrawnEdge.Photograph(tones, EdgeTrials.NoiseLevels, random);
            variance += Math.Pow(new EdgeFitter().Fit(edge.Block(grey, Panels), Optics(edge), true)!.Value.OffsetSigmaPx, 2) / n;
        }
        double bound = Bound(edge, isRounded: true);
        Assert.True(Math.Sqrt(variance) / bound is > 0.95 and < 1.05, FormattableString.Invariant($"stated {Math.Sqrt(variance):g4}, bound {bound:g4} px"));
    }

    [Fact]
    public void A_picture_without_a_step_up_to_the_steel_has_no_edge()
    {
        DrawnEdge inverted = new() { FaceLevel = 0.02, GroundLevel = 0.25 };
        using Mat tones = inverted.Tones();
        using Mat grey = DrawnEdge.Photograph(tones, 0, new Random(7));
        Assert.Null(new EdgeFitter().FitStep(inverted.Block(grey, Panels), Optics(inverted)));
    }

    internal static EdgeOptics Optics(DrawnEdge e) => new(e.BlurPx, new(e.SharpeningAmount));

    /// <summary>Standard deviation of the place from the information matrix over the block's pixels.</summary>
    private static double Bound(DrawnEdge edge, bool isRounded)
    {
        const double h = 0.02, level = 1e-3;
        List<double[]> columns =
        [
            Derivative(edge with { PlacePx = edge.PlacePx + h }, edge with { PlacePx = edge.PlacePx - h }, 2 * h),
            Derivative(edge with { FaceLevel = edge.FaceLevel + level }, edge with { FaceLevel = edge.FaceLevel - level }, 2 * level),
            Derivative(edge with { FaceSlope = level / 9 }, edge with { FaceSlope = -level / 9 }, 2 * level / 9),
            Derivative(edge with { GroundLevel = edge.GroundLevel + level }, edge with { GroundLevel = edge.GroundLevel - level }, 2 * level),
        ];
        if (isRounded) columns.Add(Derivative(edge with { RadiusPx = edge.RadiusPx + h }, edge with { RadiusPx = edge.RadiusPx - h }, 2 * h));
        Matrix<double> j = Matrix<double>.Build.DenseOfColumnArrays(columns);
        return EdgeTrials.NoiseOfTone * Math.Sqrt(j.TransposeThisAndMultiply(j).Inverse()[0, 0]);
    }

    private static double[] Derivative(DrawnEdge after, DrawnEdge before, double step)
    {
        using Mat a = after.Tones(), b = before.Tones();
        EdgePlace place = after.Supposed;
        List<double> values = [];
        for (int y = 0; y < DrawnEdge.SizePx; y++)
        {
            ReadOnlySpan<float> rowA = a.RowSpan<float>(y), rowB = b.RowSpan<float>(y);
            for (int x = 0; x < DrawnEdge.SizePx; x++)
            {
                double dx = x - place.Centre.X, dy = y - place.Centre.Y;
                double across = dx * place.Outward.X + dy * place.Outward.Y, along = dx * place.Outward.Y - dy * place.Outward.X;
                if (Math.Abs(across) <= EdgeProfileModel.ReachPx && Math.Abs(along) <= place.HalfLengthPx) values.Add((rowA[x] - rowB[x]) / step);
            }
        }
        return [.. values];
    }
}
