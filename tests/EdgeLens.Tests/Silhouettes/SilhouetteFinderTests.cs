using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Silhouettes;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Silhouettes;

/// <summary>Scenes drawn into the window: which end of the steel is free, how far back its sides go, and what is refused.</summary>
public sealed class SilhouetteFinderTests
{
    private const byte Ground = 28, Face = 135, Neck = 34;

    [Fact]
    public void A_blades_apex_and_both_sides_are_found()
    {
        CoarseSilhouette found = Find(grey => Blade(grey, -13, 6)).Value;
        ApexAt(found, 6);
        // Threshold at the emptiest tone, within the blur of 1 px, and the tip is drawn to whole pixels.
        Assert.All(found.Points, p => Assert.InRange(Math.Abs(p.Y - (SquareView.HeightPx - 1) / 2.0), 0, 0.4 / SquareView.MmPerPx + 4));
        Assert.True(found.Points.Min(p => p.X) < SquareView.Pixel(-11, 0).X);
    }

    [Fact]
    public void Levels_are_those_that_were_drawn()
    {
        CoarseSilhouette found = Find(grey => Blade(grey, -13, 6)).Value;
        // sRGB of tones 28 and 135: 0.0116 and 0.2423; a fifth's quantile of noisy steel (sd 1.5 tones, blurred) lies within two tones.
        Assert.Equal(0.0116, found.GroundLevel, 0.001);
        Assert.Equal(0.2423, found.FaceLevel, 0.01);
    }

    /// <summary>The shank leaves the window, the dark neck hides between: the blade is the piece beyond it.</summary>
    [Fact]
    public void A_dark_neck_parts_the_blade_from_its_shank()
    {
        CoarseSilhouette found = Find(grey =>
        {
            Blade(grey, -0.5, 6);
            Bar(grey, -2, -0.5, 0.4, Neck);
            Bar(grey, -13, -2, 0.4, Face);
        }).Value;
        ApexAt(found, 6);
        Assert.True(found.Points.Min(p => p.X) > SquareView.Pixel(-0.6, 0).X);
    }

    /// <summary>Nothing touches the border: the end with sparks beyond it is the shank's, on whichever side.</summary>
    [Theory]
    [InlineData(-1)]
    [InlineData(1)]
    public void Sparks_beyond_one_end_tell_where_the_shank_is(int side)
    {
        CoarseSilhouette found = Find(grey =>
        {
            Blade(grey, side < 0 ? -0.5 : -6, side < 0 ? 6 : 0.5);
            for (int i = 1; i < 8; i++) Bar(grey, side * (1 + i) - 0.2, side * (1 + i) + 0.2, 0.05, 220);
        }).Value;
        int expected = SquareView.Pixel(-side * 6, 0).X;
        Assert.InRange(found.Points[found.ApexIndex].X, expected - 40, expected + 40);
    }

    [Fact]
    public void Steel_that_leaves_on_two_sides_is_cut_off() => Assert.Equal("cut-off", Find(grey => Bar(grey, -13, 13, 0.4, Face)).Refusal?.Code);

    [Fact]
    public void A_tip_that_reaches_the_windows_border_is_cut_off() => Assert.Equal("cut-off", Find(grey => Blade(grey, -13, 11.8)).Refusal?.Code);

    [Fact]
    public void An_empty_window_has_no_blade()
    {
        Refusal? refusal = Find(_ => { }).Refusal;
        Assert.Equal("no-blade", refusal?.Code);
        Assert.Equal(SteelMask.LeastAreaMm2, refusal?.Limit);
        Assert.True(refusal?.Figure < SteelMask.LeastAreaMm2);
    }

    [Fact]
    public void A_speck_is_no_blade() => Assert.Equal("no-blade", Find(grey => Bar(grey, 0, 0.7, 0.35, Face)).Refusal?.Code);

    private static void ApexAt(CoarseSilhouette found, double xMm)
    {
        Point expected = SquareView.Pixel(xMm, 0);
        Assert.InRange(found.Points[found.ApexIndex].X, expected.X - 3, expected.X + 3);
        // The round tip is flat to a pixel over √(2 · 33) px to either side.
        Assert.InRange(found.Points[found.ApexIndex].Y, expected.Y - 10, expected.Y + 10);
    }

    private static Outcome<CoarseSilhouette> Find(Action<Mat> draw)
    {
        using Mat grey = new(SquareView.HeightPx, SquareView.WidthPx, MatType.CV_8UC1, Scalar.All(Ground));
        draw(grey);
        SquareView.Expose(grey, 5);
        using WindowRegion region = WindowRegion.Of(SquareView.Calibration, SquareView.Card, grey.Size())!;
        return SilhouetteFinder.Find(grey, region, SquareView.MmPerPx);
    }

    /// <summary>A bar of 0.8 mm with round ends.</summary>
    private static void Blade(Mat grey, double fromMm, double toMm)
    {
        Bar(grey, fromMm + 0.4, toMm - 0.4, 0.4, Face);
        foreach (double x in new[] { fromMm + 0.4, toMm - 0.4 }) Cv2.Circle(grey, SquareView.Pixel(x, 0), (int)(0.4 / SquareView.MmPerPx), Scalar.All(Face), -1);
    }

    private static void Bar(Mat grey, double fromMm, double toMm, double halfMm, byte tone) =>
        Cv2.Rectangle(grey, SquareView.Pixel(fromMm, -halfMm), SquareView.Pixel(toMm, halfMm), Scalar.All(tone), -1);
}
