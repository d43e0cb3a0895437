using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;
using Xunit;

namespace EdgeLens.Tests.Fitting;

public sealed class SimilarityFitTests
{
    private static readonly Vector2[] Points = [new(0, 0), new(4, 0.3), new(3.5, 2), new(1, 2.5), new(-1, 1)];

    [Fact]
    public void A_known_transform_is_given_back()
    {
        Similarity bFromA = new(1.7, -2.4, 30, -12);
        SimilarityFit fit = SimilarityFit.Of(Points, [.. Points.Select(bFromA.Apply)]).Value;
        Assert.Equal(bFromA.Scale, fit.BFromA.Scale, 12);
        Assert.Equal(bFromA.AngleRad, fit.BFromA.AngleRad, 12);
        Assert.Equal(bFromA.Dx, fit.BFromA.Dx, 11);
        Assert.Equal(bFromA.Dy, fit.BFromA.Dy, 11);
        Assert.Equal(0, fit.ResidualSd, 11);
    }

    [Fact]
    public void Umeyama_s_own_example_is_met()
    {
        // Umeyama 1991, section IV: x = (0,0) (1,0) (0,2), y = (0,0) (-1,0) (0,2), best without mirroring:
        // R = [0.832 0.555; -0.555 0.832], c = 0.721, t = (-0.800, 0.400) (from memory).
        Vector2[] x = [new(0, 0), new(1, 0), new(0, 2)], y = [new(0, 0), new(-1, 0), new(0, 2)];
        SimilarityFit fit = SimilarityFit.Of(x, y).Value;
        Assert.Equal(0.721, fit.BFromA.Scale, 3);
        Assert.Equal(0.832, Math.Cos(fit.BFromA.AngleRad), 3);
        Assert.Equal(-0.555, Math.Sin(fit.BFromA.AngleRad), 3);
        Assert.Equal(-0.800, fit.BFromA.Dx, 3);
        Assert.Equal(0.400, fit.BFromA.Dy, 3);
    }

    [Fact]
    public void Held_scale_is_kept_and_weights_decide_between_points_that_disagree()
    {
        Similarity bFromA = new(1, 0.3, 5, 6);
        Vector2[] b = [.. Points.Select(bFromA.Apply)];
        Assert.Equal(1.1, SimilarityFit.Of(Points, b, heldScale: 1.1).Value.BFromA.Scale);
        b[2] += new Vector2(1, -1);
        Vector2 centroid = 0.2 * Points.Aggregate((p, q) => p + q);
        Assert.Equal(0, (SimilarityFit.Of(Points, b, [1, 1, 1e-9, 1, 1]).Value.BFromA.Apply(centroid) - bFromA.Apply(centroid)).Length, 6);
        // With equal weights the image of the centroid is the centroid of the images: a fifth of the one point's √2.
        Assert.Equal(Math.Sqrt(2) / 5, (SimilarityFit.Of(Points, b).Value.BFromA.Apply(centroid) - bFromA.Apply(centroid)).Length, 9);
    }

    [Fact]
    public void Place_angle_and_scale_scatter_as_stated()
    {
        const int trials = 400;
        Random random = new(11);
        Similarity bFromA = new(1.2, 0.8, 3, 4);
        Vector2[] a = [.. Enumerable.Range(0, 60).Select(i => new Vector2(0.1 * i, Math.Sin(i)))];
        double place = 0, angle = 0, scale = 0;
        for (int k = 0; k < trials; k++)
        {
            SimilarityFit fit = SimilarityFit.Of(a, [.. a.Select(p => bFromA.Apply(p) + 0.01 * new Vector2(Noise.Normal(random), Noise.Normal(random)))]).Value;
            place += Math.Pow((fit.BFromA.Apply(fit.CentroidA) - bFromA.Apply(fit.CentroidA)).X / fit.PlaceSd, 2);
            angle += Math.Pow((fit.BFromA.AngleRad - 0.8) / fit.AngleSdRad, 2);
            scale += Math.Pow((fit.BFromA.Scale - 1.2) / fit.ScaleSd, 2);
        }
        // Chi square of 400, 99.8 %: ±3.09 √(2/400) = ±22 %.
        foreach (double sum in new[] { place, angle, scale }) Assert.InRange(sum / trials, 0.78, 1.22);
    }

    [Fact]
    public void One_place_is_refused() => Assert.Equal("similarity-degenerate", SimilarityFit.Of([new(1, 1), new(1, 1)], [new(0, 0), new(2, 2)]).Refusal!.Code);
}
