using System.Globalization;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Tests.HouseRules;
using MathNet.Numerics.Distributions;
using Xunit;

namespace EdgeLens.Tests.Fitting;

/// <summary>Outside: NIST StRD Norris and NoInt1 (certified), JCGM 100:2008 H.3, the prediction intervals that R prints for its data set "cars".</summary>
public sealed class GeneralLeastSquaresTests
{
    [Fact]
    public void Norris_is_met_in_eleven_digits()
    {
        double[][] data = [.. Repository.ReadText("tests/EdgeLens.Tests/Data/Norris.dat").Split('\n').Skip(60).Take(36)
            .Select(l => l.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(t => double.Parse(t, CultureInfo.InvariantCulture)).ToArray())];
        GeneralLeastSquares unit = Line([.. data.Select(d => d[1])], [.. data.Select(d => d[0])], 1);
        double residualSd = Math.Sqrt(unit.ChiSquare / unit.DegreesOfFreedom);
        // Certified: NIST StRD, Norris.dat, lines 31 to 46.
        AssertDigits(-0.262323073774029, unit.Coefficients[0]);
        AssertDigits(1.00211681802045, unit.Coefficients[1]);
        AssertDigits(0.884796396144373, residualSd);
        AssertDigits(0.429796848199937e-3, residualSd * unit.Coefficient(1).StandardUncertainty);
    }

    [Fact]
    public void A_line_through_the_origin_is_the_certified_one()
    {
        // NIST StRD, NoInt1: y = 130 ... 140 at x = 60 ... 70, no constant term.
        double[,] x = new double[11, 1], v = Unit(11);
        double[] y = new double[11];
        for (int i = 0; i < 11; i++) (x[i, 0], y[i]) = (60 + i, 130 + i);
        GeneralLeastSquares fit = GeneralLeastSquares.Fit(x, y, v).Value;
        double residualSd = Math.Sqrt(fit.ChiSquare / fit.DegreesOfFreedom);
        AssertDigits(2.07438016528926, fit.Coefficients[0]);
        AssertDigits(3.56753034006338, residualSd);
        AssertDigits(0.165289256198347e-1, residualSd * fit.Coefficient(0).StandardUncertainty);
    }

    [Fact]
    public void The_thermometer_of_the_GUM_is_corrected_as_printed()
    {
        // JCGM 100:2008, H.3: readings, corrections, and the correction at 30 °C that is predicted from them: -0.1494 °C, u = 0.0041 °C.
        double[] t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511];
        double[] b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160];
        double variance = Line([.. t.Select(x => x - 20)], b, 1).ChiSquare / 9;
        GeneralLeastSquares fit = Line([.. t.Select(x => x - 20)], b, variance);
        Measured at30 = fit.Predict([1, 10], 0, new double[11]);
        Assert.Equal(-0.1712, fit.Coefficients[0], 4);
        Assert.Equal(0.0029, fit.Coefficient(0).StandardUncertainty, 4);
        Assert.Equal(0.00218, fit.Coefficients[1], 5);
        Assert.Equal(0.00067, fit.Coefficient(1).StandardUncertainty, 5);
        Assert.Equal(-0.1494, at30.Value, 4);
        Assert.Equal(0.0041, at30.StandardUncertainty, 4);
    }

    [Theory]
    // As R's predict(lm(dist ~ speed, cars), interval = "prediction") prints them (speed 19 from memory).
    [InlineData(12, 29.60981, -1.749529, 60.96915)]
    [InlineData(19, 57.13667, 25.761756, 88.51159)]
    public void A_prediction_interval_is_the_published_one(double speed, double fit, double low, double high)
    {
        // Data: Ezekiel, Methods of Correlation Analysis (1930); the set "cars" of R.
        double[] x = [4, 4, 7, 7, 8, 9, 10, 10, 10, 11, 11, 12, 12, 12, 12, 13, 13, 13, 13, 14, 14, 14, 14, 15, 15, 15, 16, 16, 17, 17, 17, 18, 18, 18, 18, 19, 19, 19, 20, 20, 20, 20, 20, 22, 23, 24, 24, 24, 24, 25];
        double[] y = [2, 10, 4, 22, 16, 10, 18, 26, 34, 17, 28, 14, 20, 24, 28, 26, 34, 34, 46, 26, 36, 60, 80, 20, 26, 54, 32, 40, 32, 40, 50, 42, 56, 76, 84, 36, 46, 68, 32, 48, 52, 56, 64, 66, 54, 70, 92, 93, 120, 85];
        double variance = Line(x, y, 1).ChiSquare / 48;
        Measured p = Line(x, y, variance).Predict([1, speed], variance, new double[50]);
        double half = StudentT.InvCDF(0, 1, 48, 0.975) * p.StandardUncertainty;
        Assert.InRange(p.Value, fit - 6e-6, fit + 6e-6);
        Assert.InRange(p.Value - half, low - 6e-6, low + 6e-6);
        Assert.InRange(p.Value + half, high - 6e-6, high + 6e-6);
    }

    [Fact]
    public void Twice_the_same_error_is_one_observation()
    {
        // Two observations with the very same error say as much as one: of three, mean and variance are those of two (derived: equal weights of the two sources).
        double[,] v = { { 1, 0.999999999, 0 }, { 0.999999999, 1, 0 }, { 0, 0, 1 } };
        GeneralLeastSquares fit = GeneralLeastSquares.Fit(new double[,] { { 1 }, { 1 }, { 1 } }, [10, 10, 13], v).Value;
        Assert.Equal(11.5, fit.Coefficients[0], 6);
        Assert.Equal(Math.Sqrt(0.5), fit.Coefficient(0).StandardUncertainty, 6);
    }

    [Fact]
    public void A_departure_that_stays_is_carried_into_the_prediction()
    {
        // Constant mean, one observation far off with a departure shared by the prediction: the textbook conditional mean of a normal pair about the fitted mean.
        double[,] v = { { 1, 0 }, { 0, 1 } };
        GeneralLeastSquares fit = GeneralLeastSquares.Fit(new double[,] { { 1 }, { 1 } }, [0, 4], v).Value;
        Measured p = fit.Predict([1], 1, [0, 0.5]);
        Assert.Equal(2 + 0.5 * (4 - 2), p.Value, 12);
        // 1 - 0.5² + (1 - 0.5)² · ½ = 0.875.
        Assert.Equal(Math.Sqrt(0.875), p.StandardUncertainty, 12);
    }

    [Fact]
    public void Too_few_observations_and_dependent_columns_are_refused()
    {
        Assert.Equal("fit-too-few-points", GeneralLeastSquares.Fit(new double[,] { { 1, 2 } }, [1], Unit(1)).Refusal!.Code);
        Assert.Equal("fit-degenerate", GeneralLeastSquares.Fit(new double[,] { { 1, 2 }, { 2, 4 }, { 3, 6 } }, [1, 2, 3], Unit(3)).Refusal!.Code);
        Assert.Equal("fit-degenerate", GeneralLeastSquares.Fit(new double[,] { { 0 }, { 0 } }, [1, 2], Unit(2)).Refusal!.Code);
        Assert.Throws<ArgumentException>(() => GeneralLeastSquares.Fit(new double[,] { { 1 }, { 1 } }, [1, 2], new double[,] { { 1, 2 }, { 2, 1 } }));
    }

    [Fact]
    public void The_excess_variance_of_the_thirteen_trials_is_found()
    {
        // Data: the 13 trials of Colditz et al., JAMA 271 (1994) 698-702, log risk ratios. Root of Q(variance) = 12 by another program (SciPy 1.10, brentq): 0.3180685.
        double[][] trials =
        [
            [4, 119, 11, 128], [6, 300, 29, 274], [3, 228, 11, 209], [62, 13536, 248, 12619], [33, 5036, 47, 5761], [180, 1361, 372, 1079], [8, 2537, 10, 619],
            [505, 87886, 499, 87892], [29, 7470, 45, 7232], [17, 1699, 65, 1600], [186, 50448, 141, 27197], [5, 2493, 3, 2338], [27, 16886, 29, 17825],
        ];
        double[] y = [.. trials.Select(t => Math.Log(t[0] / (t[0] + t[1]) * (t[2] + t[3]) / t[2]))];
        double[] u2 = [.. trials.Select(t => 1 / t[0] - 1 / (t[0] + t[1]) + 1 / t[2] - 1 / (t[2] + t[3]))];
        double found = MandelPaule.Variance(v => Mean(v).ChiSquare, 12, 1e-3);
        Assert.Equal(0.3180685, found, 5);
        // The mean and its deviation, same program.
        Assert.Equal(-0.7149682, Mean(found).Coefficients[0], 5);
        Assert.Equal(0.1808922, Mean(found).Coefficient(0).StandardUncertainty, 5);

        GeneralLeastSquares Mean(double excess)
        {
            double[,] v = new double[13, 13], ones = new double[13, 1];
            for (int i = 0; i < 13; i++) (v[i, i], ones[i, 0]) = (u2[i] + excess, 1);
            return GeneralLeastSquares.Fit(ones, y, v).Value;
        }
    }

    [Fact]
    public void Residuals_that_the_uncertainties_explain_need_no_excess_variance() => Assert.Equal(0, MandelPaule.Variance(v => 3 / (1 + v), 4, 1));

    private static GeneralLeastSquares Line(double[] x, double[] y, double variance)
    {
        double[,] design = new double[x.Length, 2], v = new double[x.Length, x.Length];
        for (int i = 0; i < x.Length; i++) (design[i, 0], design[i, 1], v[i, i]) = (1, x[i], variance);
        return GeneralLeastSquares.Fit(design, y, v).Value;
    }

    private static double[,] Unit(int n)
    {
        double[,] v = new double[n, n];
        for (int i = 0; i < n; i++) v[i, i] = 1;
        return v;
    }

    private static void AssertDigits(double certified, double found) => Assert.True(Math.Abs(found - certified) <= 1e-11 * Math.Abs(certified), $"{found:R} is not the certified {certified:R}");
}
