using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Tests.Cards;
using Xunit;

namespace EdgeLens.Tests.Calibration;

public sealed class CardCalibratorTests
{
    private const int Trials = 200;

    /// <summary>
    /// Truth drawn from what is taken for granted (distance, principal point, bars), corners with 0.08 px of noise: of 200 errors, 181 to 199 lie within
    /// k = 2 (99.8 % of binomial trials at 0.954). Each figure is held to it on its own.
    /// </summary>
    [Fact]
    public void Stated_uncertainties_cover_the_truth()
    {
        Random random = new(2024);
        string[] names = ["tilt x", "tilt y", "distance", "focal length", "k1", "print x", "print y", "scale x", "scale y", "ink"];
        int[] within = new int[names.Length];
        double[] squares = new double[names.Length];
        for (int trial = 0; trial < Trials; trial++)
        {
            CardGeometry truth = MadeCard.Draw(random);
            PrintMeasurement bars = MadeCard.Bars(truth, random);
            CardCalibration c = CardCalibrator.Calibrate(MadeCard.Sighting(truth, random, 0.08, MadeCard.IsInSparseColumn), DefaultCard.Card, bars).Value;
            CardTilt tilt = c.Tilt, trueTilt = Exactly(truth).Tilt;
            double[] ratios =
            [
                Ratio(tilt.XDeg, trueTilt.XDeg.Value), Ratio(tilt.YDeg, trueTilt.YDeg.Value), Ratio(c.DistanceMm, Exactly(truth).DistanceMm.Value),
                Ratio(c.FocalLengthPx, truth.Camera.FocalLengthPx), Ratio(c.K1, truth.Camera.K1), Ratio(c.PrintScaleX, truth.PrintScaleX), Ratio(c.PrintScaleY, truth.PrintScaleY),
                LengthRatio(c, truth, new(1, 0)), LengthRatio(c, truth, new(0, 1)), Ratio(c.InkSpreadMm, truth.InkSpreadMm),
            ];
            for (int i = 0; i < names.Length; i++)
            {
                if (Math.Abs(ratios[i]) <= 2) within[i]++;
                squares[i] += ratios[i] * ratios[i];
            }
        }
        string told = string.Join(", ", names.Select((n, i) => FormattableString.Invariant($"{n}: {within[i]} within, mean square {squares[i] / Trials:F2}")));
        Assert.All(within, w => Assert.True(w is >= 181 and <= 199, told));
    }

    /// <summary>Lens and print exact: the scale is known to what the corners say, and that is what the budget says. Chi-square band of 100 trials at 99.8 %: 0.61 to 1.50.</summary>
    [Fact]
    public void The_corners_part_of_the_scale_budget_is_the_scatter_over_repeated_noise()
    {
        Random random = new(7);
        CardGeometry truth = MadeCard.Geometry(tiltXDeg: 9, tiltYDeg: 6);
        List<double> errors = [];
        double stated = 0;
        for (int trial = 0; trial < 100; trial++)
        {
            CardCalibration c = CardCalibrator.Calibrate(MadeCard.Sighting(truth, random, 0.1), DefaultCard.Card, PrintMeasurement.FromReadings(40, 30)).Value;
            errors.Add(LengthError(c, truth, new(1, 0), 0.5));
            stated = c.ScaleBudget(new Measured(0.5, 0), new Vector2(1, 0)).Corners;
        }
        double mean = errors.Average(), variance = errors.Sum(e => (e - mean) * (e - mean)) / (errors.Count - 1);
        Assert.InRange(variance / (stated * stated), 0.61, 1.50);
    }

    /// <summary>The parts of the budget from outside: bars of 40 and 30 mm at 0.01 mm; height ± 1 mm seen from Z - h.</summary>
    [Fact]
    public void The_budget_lists_print_and_height_as_geometry_predicts_them()
    {
        CardGeometry truth = MadeCard.Geometry(tiltXDeg: 0.5, tiltYDeg: 0.2, distanceMm: 112);
        CardCalibration c = CardCalibrator.Calibrate(MadeCard.Sighting(truth, new Random(8), 0.05), DefaultCard.Card, PrintMeasurement.FromReadings(40, 30)).Value;
        ScaleBudget x = c.ScaleBudget(new Measured(0.5, 1), new Vector2(1, 0)), y = c.ScaleBudget(new Measured(0.5, 1), new Vector2(0, 1));
        Assert.Equal(1 / (c.DistanceMm.Value - 0.5), x.Height, 1e-5);
        // Square to the card the picture shows the ratio of the two bars as well: each is then known to the weighted mean of both readings.
        double bx = 0.01 / 40, by = 0.01 / 30, mean = 1 / Math.Sqrt(1 / (bx * bx) + 1 / (by * by));
        Assert.InRange(x.Print, 0.98 * mean, bx * 1.001);
        Assert.InRange(y.Print, 0.98 * mean, by * 1.001);
        Assert.True(x.Print <= y.Print);
        Assert.Equal(Quadrature.Sum(y.Corners, y.Print, y.Lens, y.Height), c.ScaleBudget(new Measured(0.5, 1)).RelativeStandardUncertainty, 1e-6);
    }

    [Fact]
    public void Wrong_corners_are_dropped_and_change_nothing()
    {
        CardGeometry truth = MadeCard.Geometry();
        CardSighting good = MadeCard.Sighting(truth, new Random(9), 0.05);
        // Every eighth corner, as where a shank's border was taken for it: 1 to 6 px off, to one side.
        Random random = new(10);
        CardSighting spoilt = good with { Corners = [.. good.Corners.Select((c, i) => i % 8 == 0 ? c with { Pixel = new(c.Pixel.X + 1 + 5 * random.NextDouble(), c.Pixel.Y + 1) } : c)] };
        CardCalibration a = Calibrate(good), b = Calibrate(spoilt);
        Assert.True(b.CornerCount <= good.Corners.Length * 7 / 8, $"{b.CornerCount} used of {good.Corners.Length}");
        Assert.True(b.CornerCount >= good.Corners.Length * 7 / 8 - 3, $"{b.CornerCount} used of {good.Corners.Length}");
        Assert.InRange(b.CornerResidualPx, 0.045, 0.055);
        Assert.Equal(0, (a.ToPlane(new(1999, 1499), 0).XMm - b.ToPlane(new(1999, 1499), 0).XMm), 1e-3);
        Assert.InRange(a.MmPerPx(new(42.8, 27), 0) / b.MmPerPx(new(42.8, 27), 0), 1 - 1e-4, 1 + 1e-4);
    }

    [Fact]
    public void Distortion_does_not_pass_for_tilt()
    {
        // A homography fitted to this picture would be off by several pixels at its borders.
        CardGeometry truth = MadeCard.Geometry(tiltXDeg: 6, tiltYDeg: 0, k1: -0.6);
        CardCalibration c = Calibrate(MadeCard.Sighting(truth, new Random(11), 0.05));
        Assert.InRange(Ratio(c.Tilt.XDeg, Exactly(truth).Tilt.XDeg.Value), -3.3, 3.3);
        Assert.InRange(Ratio(c.K1, -0.6), -3.3, 3.3);
        Assert.InRange(c.CornerResidualPx, 0.046, 0.054);
    }

    [Fact]
    public void Too_little_of_the_card_is_refused()
    {
        CardGeometry truth = MadeCard.Geometry();
        foreach (double width in new[] { 1.9, 4.1 })
        {
            CardSighting corner = MadeCard.Sighting(truth, new Random(12), 0.4, p => p.XMm < 30 + width / 2 && p.XMm > 30 - width / 2 && p.YMm < 22);
            Assert.False(CardCalibrator.Calibrate(corner, DefaultCard.Card, PrintMeasurement.FromReadings(40, 30)).TryGet(out _, out Refusal? refusal));
            Assert.Equal("card-hidden", refusal.Code);
            Assert.NotNull(refusal.Figure);
            Assert.NotNull(refusal.Limit);
        }
    }

    [Fact]
    public void An_unmeasured_print_costs_its_uncertainty()
    {
        CardCalibration c = CardCalibrator.Calibrate(MadeCard.Sighting(MadeCard.Geometry(), new Random(13), 0.05), DefaultCard.Card, PrintMeasurement.NotMeasured(DefaultCard.Card)).Value;
        // Rectangular ± 1 % on each bar, 0.58 %; what the picture tells about the ratio of the two leaves at least 1 / sqrt 2 of it.
        Assert.InRange(c.ScaleBudget(new Measured(0, 0)).Print, 0.0058 / Math.Sqrt(2) * 0.98, 0.0058);
    }

    [Fact]
    public void The_view_direction_points_to_the_camera()
    {
        CardGeometry truth = MadeCard.Geometry(tiltXDeg: 0, tiltYDeg: 0, rollDeg: 0, distanceMm: 100);
        CardCalibration c = Exactly(truth);
        // Straight below the camera it is the card's normal; 10 mm to the right of it, it leans back to the left by 10 in 100.
        Vector2 below = new(DefaultCard.Card.Window.Centre.XMm - 0.6, DefaultCard.Card.Window.Centre.YMm + 0.4);
        Assert.Equal(-1, c.ViewDirection(new(below.X, below.Y), 0).Z, 1e-12);
        var right = c.ViewDirection(new(below.X + 10, below.Y), 0);
        Assert.Equal(-0.1, right.X / -right.Z, 1e-12);
        Assert.Equal(0, right.Y, 1e-12);
    }

    [Fact]
    public void Tilt_has_the_sign_that_its_words_say()
    {
        // The right of the picture is farther away: what is there appears smaller.
        CardCalibration c = Exactly(MadeCard.Geometry(tiltXDeg: 5, tiltYDeg: 0, rollDeg: 0, k1: 0));
        Assert.Equal(5, c.Tilt.XDeg.Value, 1e-6);
        Assert.True(c.MmPerPx(new(52, 27), 0) > c.MmPerPx(new(33, 27), 0));
        Assert.Equal(5, c.TiltDeg.Value, 1e-6);
    }

    private static CardCalibration Calibrate(CardSighting s) => CardCalibrator.Calibrate(s, DefaultCard.Card, PrintMeasurement.FromReadings(40, 30)).Value;

    /// <summary>The truth itself as a calibration without uncertainty.</summary>
    private static CardCalibration Exactly(CardGeometry truth) => new(
        truth, 1e-24 * MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.DenseIdentity(CardGeometry.ParameterCount),
        BundlePriors.UnknownLens(4000, 3000, new(1, 0.001), new(1, 0.001)), DefaultCard.Card, 0, 0);

    private static double Ratio(Measured m, double truth) => (m.Value - truth) / m.StandardUncertainty;

    private static double LengthRatio(CardCalibration c, CardGeometry truth, Vector2 direction) =>
        LengthError(c, truth, direction, 0.6) / c.ScaleBudget(new Measured(0.6, 0), direction).WithoutHeight;

    /// <summary>Relative error of a length of 2 mm at the window's middle, in the plane at its true height.</summary>
    private static double LengthError(CardCalibration c, CardGeometry truth, Vector2 direction, double heightMm)
    {
        CardPoint middle = truth.Printed(DefaultCard.Card.Window.Centre);
        CardPoint a = c.ToPlane(truth.Project(new(middle.XMm - direction.X, middle.YMm - direction.Y), heightMm), heightMm);
        CardPoint b = c.ToPlane(truth.Project(new(middle.XMm + direction.X, middle.YMm + direction.Y), heightMm), heightMm);
        return new Vector2(b.XMm - a.XMm, b.YMm - a.YMm).Length / 2 - 1;
    }
}
