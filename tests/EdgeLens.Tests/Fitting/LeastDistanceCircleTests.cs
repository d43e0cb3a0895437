using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;
using Xunit;

namespace EdgeLens.Tests.Fitting;

public sealed class LeastDistanceCircleTests
{
    /// <summary>Gander, Golub, Strebel, BIT 34 (1994) 558-578; points from memory, result recomputed by others.</summary>
    private static readonly Vector2[] Paper = [new(1, 7), new(2, 6), new(5, 8), new(7, 7), new(9, 5), new(3, 7)];

    [Fact]
    public void The_paper_s_six_points_give_the_paper_s_circle()
    {
        FittedCircle circle = LeastDistanceCircle.Fit(Paper).Value;
        Assert.Equal(4.7142, circle.Radius, 4);
        Assert.Equal(4.7398, circle.Centre.X, 4);
        Assert.Equal(2.9835, circle.Centre.Y, 4);
    }

    [Fact]
    public void The_algebraic_fit_of_the_same_points_is_another_circle()
    {
        // The rival: least squares in x² + y² (Kåsa), solved here by the normal equations. The test above would be worthless if both agreed.
        double mx = Paper.Average(p => p.X), my = Paper.Average(p => p.Y), xx = 0, xy = 0, yy = 0, xs = 0, ys = 0, s = 0;
        foreach (Vector2 p in Paper)
        {
            double x = p.X - mx, y = p.Y - my, r2 = x * x + y * y;
            xx += x * x; xy += x * y; yy += y * y; xs += x * r2; ys += y * r2; s += r2;
        }
        double det = xx * yy - xy * xy, cx = (xs * yy - ys * xy) / det / 2, cy = (ys * xx - xs * xy) / det / 2;
        Assert.Equal(4.1088, Math.Sqrt(s / 6 + cx * cx + cy * cy), 4);
    }

    [Fact]
    public void Circle_follows_its_points_when_they_are_turned_shifted_scaled_and_reversed()
    {
        Similarity move = new(0.01, 2.1, 300, -40);
        FittedCircle here = LeastDistanceCircle.Fit(Paper).Value, there = LeastDistanceCircle.Fit([.. Paper.Select(move.Apply).Reverse()]).Value;
        Assert.Equal(here.Radius * 0.01, there.Radius, 9);
        Assert.Equal(0, (move.Apply(here.Centre) - there.Centre).Length, 8);
    }

    [Fact]
    public void A_short_arc_is_unbiased_and_scatters_as_predicted()
    {
        // Tip arc: 6 mm over ±12°, 200 points, 2.5 µm. The algebraic fit is 22 µm too small there.
        const int trials = 400;
        Random random = new(20250101);
        double[] errors = new double[trials], z = new double[trials];
        for (int k = 0; k < trials; k++)
        {
            FittedCircle circle = LeastDistanceCircle.Fit(Arc(6, 12, 200, 0.0025, random), 0.0025).Value;
            errors[k] = circle.Radius - 6;
            z[k] = errors[k] / circle.RadiusSd;
        }
        // Prediction from the Jacobian, u = (sin φ, cos φ), for evenly spread φ in ±0.2094 (design matrix (sin, cos, 1)).
        double predicted = PredictedRadiusSd(12, 200, 0.0025), mean = errors.Average(), sd = Math.Sqrt(errors.Average(e => (e - mean) * (e - mean)));
        // Curvature of the problem: bias about sd²/R per unit of order 1, 0.1 µm here, far inside 3 sd/√N = 4 µm.
        Assert.True(Math.Abs(mean) <= 3 * predicted / Math.Sqrt(trials), $"bias {mean * 1000:0.0} µm");
        // Chi-square band of 99.8 % for 400 trials: ±3.09/√800 = ±11 %.
        Assert.InRange(sd / predicted, 0.89, 1.11);
        // Of 400, 369 to 394 within k = 2 (binomial, 99.8 %).
        Assert.InRange(z.Count(v => Math.Abs(v) <= 2), 369, 394);
    }

    [Fact]
    public void Sensitivities_are_what_happens_when_a_point_moves_outward()
    {
        Vector2[] arc = Arc(0.42, 60, 60, 0.002, new(7));
        FittedCircle circle = LeastDistanceCircle.Fit(arc).Value;
        const double step = 1e-5;
        for (int i = 0; i < arc.Length; i += 7)
        {
            Vector2[] moved = [.. arc];
            moved[i] += step * (arc[i] - circle.Centre).Unit;
            FittedCircle other = LeastDistanceCircle.Fit(moved).Value;
            // Gauss-Newton drops the residuals' curvature, of relative size residual/radius = 0.5 %.
            Assert.Equal((other.Radius - circle.Radius) / step, circle.Sensitivities[i].Radius, 0.02 * circle.Sensitivities.Max(s => Math.Abs(s.Radius)));
            Assert.Equal((other.Centre.Y - circle.Centre.Y) / step, circle.Sensitivities[i].CentreY, 0.02 * circle.Sensitivities.Max(s => Math.Abs(s.CentreY)));
        }
    }

    [Fact]
    public void What_has_no_radius_is_refused()
    {
        Assert.Equal("circle-too-few-points", LeastDistanceCircle.Fit(Paper.AsSpan(0, 4)).Refusal!.Code);
        Assert.Equal("circle-degenerate", LeastDistanceCircle.Fit([new(0, 0), new(1, 1), new(2, 2), new(3, 3), new(4, 4)]).Refusal!.Code);
        Assert.Equal("circle-degenerate", LeastDistanceCircle.Fit([.. Enumerable.Repeat(new Vector2(3, 4), 9)]).Refusal!.Code);
        Assert.Equal("circle-not-finite", LeastDistanceCircle.Fit([.. Paper, new(double.NaN, 1)]).Refusal!.Code);
        Refusal shortArc = LeastDistanceCircle.Fit(Arc(6, 4, 100, 0, new(1))).Refusal!;
        Assert.Equal("circle-arc-too-short", shortArc.Code);
        Assert.InRange(shortArc.Figure!.Value, 7.9, 8.1);
        Assert.Equal("circle-radius-unknown", LeastDistanceCircle.Fit(Arc(6, 6, 100, 0, new(1)), 0.04).Refusal!.Code);
    }

    private static Vector2[] Arc(double radius, double halfDeg, int count, double sigma, Random random) =>
    [
        .. Enumerable.Range(0, count).Select(i =>
        {
            double angle = halfDeg * Math.PI / 180 * (2.0 * i / (count - 1) - 1), r = radius + sigma * Noise.Normal(random);
            return new Vector2(r * Math.Sin(angle), r * Math.Cos(angle));
        }),
    ];

    private static double PredictedRadiusSd(double halfDeg, int count, double sigma)
    {
        // By symmetry sin separates; left are cos and 1: Var(r) = σ² Σcos² / (n Σcos² - (Σcos)²).
        double c = 0, cc = 0;
        for (int i = 0; i < count; i++)
        {
            double cos = Math.Cos(halfDeg * Math.PI / 180 * (2.0 * i / (count - 1) - 1));
            c += cos;
            cc += cos * cos;
        }
        return sigma * Math.Sqrt(cc / (count * cc - c * c));
    }
}
