using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Photographs;
using MathNet.Numerics;
using Xunit;

namespace EdgeLens.Tests.Edges;

/// <summary>Tables against the functions they stand for.</summary>
public sealed class TableTests
{
    /// <summary>Bound as its doc comment says: 2e-5 of full tone.</summary>
    [Fact]
    public void The_tone_table_follows_the_standards_curve()
    {
        double worst = 0;
        for (int i = 0; i <= 300_000; i++) worst = Math.Max(worst, Math.Abs(FastTone.Of(i / 300_000.0) - LinearLight.Encode(i / 300_000.0)));
        Assert.InRange(worst, 0, 2e-5);
        Assert.Equal((0, 1), (FastTone.Of(-0.5), FastTone.Of(1.5)));
    }

    /// <summary>Bound as its doc comment says: 2e-7, against erfc of MathNet.Numerics.</summary>
    [Fact]
    public void The_step_table_follows_the_normal_distribution()
    {
        double worst = 0;
        for (double x = -9; x <= 9; x += 1e-4) worst = Math.Max(worst, Math.Abs(GaussianStep.At(x) - 0.5 * SpecialFunctions.Erfc(-x / Constants.Sqrt2)));
        Assert.InRange(worst, 0, 2e-7);
    }

    /// <summary>Handbook values of the normal distribution.</summary>
    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(1, 0.8413447)]
    [InlineData(1.959964, 0.975)]
    [InlineData(-3, 0.0013499)]
    public void The_step_table_has_the_handbooks_values(double x, double share) => Assert.Equal(share, GaussianStep.At(x), 1e-6);
}
