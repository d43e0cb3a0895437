using System.Globalization;
using System.Security.Cryptography;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Tests.HouseRules;
using Xunit;

namespace EdgeLens.Tests.Fitting;

/// <summary>Outside: NIST StRD, Norris. The certified values are read from NIST's own file.</summary>
public sealed class StraightLineTests
{
    private static readonly string[] Norris = Repository.ReadText("tests/EdgeLens.Tests/Data/Norris.dat").Split('\n');

    private static readonly double[][] Observations = [.. Norris.Skip(60).Take(36).Select(Numbers)];

    [Fact]
    public void Norris_is_met_in_eleven_digits()
    {
        double[] b0 = Certified("B0"), b1 = Certified("B1"), residual = Certified("Standard Deviation");
        StraightLine line = Fit();
        // Lower level of difficulty: double precision should keep 11 digits and more.
        AssertDigits(b0[0], line.Intercept);
        AssertDigits(b0[1], line.InterceptSd);
        AssertDigits(b1[0], line.Slope);
        AssertDigits(b1[1], line.SlopeSd);
        AssertDigits(residual[0], line.ResidualSd);
    }

    [Fact]
    public void The_file_is_the_one_that_the_readme_names() =>
        Assert.Contains(
            Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Repository.PathOf("tests/EdgeLens.Tests/Data/Norris.dat")))),
            Repository.ReadText("tests/EdgeLens.Tests/Data/README.md"), StringComparison.Ordinal);

    [Fact]
    public void A_point_of_weight_three_counts_as_three_points()
    {
        double[] x = [0, 1, 2, 4], y = [1.0, 2.2, 2.9, 5.3];
        StraightLine weighted = StraightLine.Fit(x, y, [1, 1, 3, 1]).Value, repeated = StraightLine.Fit([0, 1, 2, 2, 2, 4], [1.0, 2.2, 2.9, 2.9, 2.9, 5.3]).Value;
        Assert.Equal(repeated.Slope, weighted.Slope, 12);
        Assert.Equal(repeated.Intercept, weighted.Intercept, 12);
    }

    [Fact]
    public void The_deviation_along_the_line_is_least_at_the_centroid()
    {
        StraightLine line = Fit();
        double mean = Observations.Average(o => o[1]);
        // Var(y at x) = s²/n + (x - mean)² Var(slope): any handbook of regression.
        Assert.Equal(line.ResidualSd / 6, line.SdAt(mean), 9);
        Assert.Equal(line.InterceptSd, line.SdAt(0), 9);
    }

    [Fact]
    public void Too_few_points_and_one_abscissa_are_refused()
    {
        Assert.Equal("line-too-few-points", StraightLine.Fit([1, 2], [1, 2]).Refusal!.Code);
        Assert.Equal("line-degenerate", StraightLine.Fit([2, 2, 2], [1, 2, 3]).Refusal!.Code);
    }

    private static StraightLine Fit() => StraightLine.Fit([.. Observations.Select(o => o[1])], [.. Observations.Select(o => o[0])]).Value;

    private static double[] Certified(string label) => Numbers(Norris.Skip(30).Take(16).Last(line => line.Trim().StartsWith(label, StringComparison.Ordinal)).Trim()[label.Length..]);

    private static double[] Numbers(string text) => [.. text.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(n => double.Parse(n, CultureInfo.InvariantCulture))];

    private static void AssertDigits(double certified, double ours) => Assert.True(Math.Abs(ours / certified - 1) < 1e-11, $"certified {certified:R}, ours {ours:R}");
}
