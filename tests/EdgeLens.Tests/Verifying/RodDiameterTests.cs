using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.RoundGauge;
using EdgeLens.Tests.Calibration;
using EdgeLens.Tests.Cards;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Verifying;

/// <summary>Outside: made truth. The silhouette of a cylinder from its tangent planes, drawn without ink film or gloss.</summary>
public sealed class RodDiameterTests
{
    [Theory]
    [InlineData(0.515, 0, 0, 0)]
    [InlineData(0.815, 8, -6, 20)]
    [InlineData(1.25, -10, 4, 88)]
    [InlineData(3.0, 5, 5, -35)]
    public void Perspective_tilt_and_the_height_of_the_axis_leave_no_error(double diameter, double tiltX, double tiltY, double angle)
    {
        // A plane picture at the axis' height would be wrong by d · (d / 2) / 110 mm at 110 mm distance: 41 µm for 3 mm.
        MadeRod rod = new(MadeCard.Geometry(tiltXDeg: tiltX, tiltYDeg: tiltY), diameter, angle);
        Random random = new(4);
        CardCalibration calibration = CardCalibrator.Calibrate(MadeCard.Sighting(rod.Camera, random, 0.01), DefaultCard.Card, MadeCard.Bars(rod.Camera, random), null).Value;
        RodDiameter found = RodDiameter.Of(calibration, Side(rod, 1), Side(rod, -1)).Value;
        double scale = diameter * calibration.ScaleBudget(new(diameter / 2, 0)).RelativeStandardUncertainty;
        Assert.InRange(Uncorrected(found) - diameter, -3 * scale - 2e-5, 3 * scale + 2e-5);
    }

    [Fact]
    public void A_drawn_rod_is_measured_within_its_uncertainty()
    {
        MadeRod rod = new(MadeCard.Geometry(widthPx: 2000, k1: 0), 0.815, 3);
        Random random = new(6);
        RodDiameter found = Measure(rod.Picture(2000, 1.1, random), rod, random);
        // Drawn matt and without ink: the two edges alone, each placed to 0.05 px of 14 µm (the drawing's own error) and the scale.
        Assert.InRange(Uncorrected(found) - 0.815, -0.0025, 0.0025);
        // Budget by hand: ink 2 · 0.72, grazing 0.815 · 2.3, offset 1.6, height 0.815 · 0.173 / 110 · 1000 = 1.3: together 3.1 µm; the scale adds up to 1 µm.
        Assert.InRange(found.DiameterMm.StandardUncertainty, 0.0029, 0.0036);
    }

    [Fact]
    public void A_bright_rod_is_refused_with_what_to_do()
    {
        CardGeometry camera = MadeCard.Geometry(widthPx: 1600, k1: 0);
        Random random = new(7);
        using Mat bare = MadeCard.Picture(camera, 1600, 1, 0.003, random);
        using Photograph photo = Read(bare);
        var refusal = RodMeasurer.Measure(photo, DefaultCard.Card, MadeCard.Bars(camera, random), null).Refusal!;
        Assert.Equal("rod-not-dark", refusal.Code);
        Assert.Contains("marker", refusal.Advice, StringComparison.Ordinal);
    }

    [Fact]
    public void Three_stretches_are_too_few() =>
        Assert.Equal("rod-edges-short", RodDiameter.Of(CardCalibrator.Calibrate(MadeCard.Sighting(MadeCard.Geometry(), new(1), 0.01), DefaultCard.Card, MadeCard.Bars(MadeCard.Geometry(), new(1)), null).Value,
            [new(1, 1), new(2, 1), new(3, 1)], [new(1, 9), new(2, 9), new(3, 9), new(4, 9)]).Refusal!.Code);

    private static RodDiameter Measure(Mat picture, MadeRod rod, Random random)
    {
        using (picture)
        using (Photograph photo = Read(picture))
            return RodMeasurer.Measure(photo, DefaultCard.Card, MadeCard.Bars(rod.Camera, random), null).Value;
    }

    private static Photograph Read(Mat picture) => PhotographReader.Read((ReadOnlyMemory<byte>)picture.ToBytes(), "rod.png").Value;

    private static PixelPoint[] Side(MadeRod rod, int side) => [.. Enumerable.Range(-5, 11).Select(i => rod.Silhouette(0.9 * i, side))];

    /// <summary>Without the corrections for ink film and grazing light, which the made rods lack.</summary>
    private static double Uncorrected(RodDiameter found) => (found.DiameterMm.Value + 2 * RodDiameter.InkFilmMm.Value) * (1 - RodDiameter.GrazingShare.Value);
}
