using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Tests.Cards;
using Xunit;

namespace EdgeLens.Tests.Calibration;

public sealed class LensProfileTests
{
    private static readonly DateOnly Day = new(2025, 3, 14);

    /// <summary>40 lenses, six photographs each. Of 40 errors, at least 33 lie within k = 2 in 99.9 % of binomial trials at 0.954; mean squares within the chi-square band 0.44 to 1.83 (99.8 %).</summary>
    [Fact]
    public void A_profile_s_uncertainties_cover_the_lens()
    {
        Random random = new(51);
        int[] within = new int[4];
        double[] squares = new double[4];
        const int trials = 40;
        for (int trial = 0; trial < trials; trial++)
        {
            CardGeometry lens = MadeCard.Draw(random);
            LensProfile p = LensProfiler.Estimate(Photographs(lens, random), DefaultCard.Card, MadeCard.Bars(lens, random), "made", Day).Value;
            (Measured, double)[] pairs =
                [(p.FocalLengthPx, lens.Camera.FocalLengthPx), (p.K1, lens.Camera.K1), (p.CentreXPx, lens.Camera.CentreXPx), (p.CentreYPx, lens.Camera.CentreYPx)];
            for (int i = 0; i < 4; i++)
            {
                double ratio = (pairs[i].Item1.Value - pairs[i].Item2) / pairs[i].Item1.StandardUncertainty;
                if (Math.Abs(ratio) <= 2) within[i]++;
                squares[i] += ratio * ratio / trials;
            }
        }
        string told = string.Join(", ", within.Zip(squares, (w, s) => FormattableString.Invariant($"{w} within, mean square {s:F2}")));
        Assert.All(within, w => Assert.True(w >= 33, told));
        Assert.All(squares, s => Assert.True(s is > 0.44 and < 1.83, told));
    }

    [Fact]
    public void A_profile_replaces_the_assumed_distance()
    {
        Random random = new(52);
        CardGeometry lens = MadeCard.Geometry(distanceMm: 92);
        LensProfile profile = LensProfiler.Estimate(Photographs(lens, random), DefaultCard.Card, MadeCard.Bars(lens, random), "made", Day).Value;
        // Nearly square to the card, where one photograph alone hardly tells the distance.
        CardGeometry square = lens with { CameraFromCard = MadeCard.Geometry(tiltXDeg: 0.6, tiltYDeg: 0.3).CameraFromCard };
        CardSighting s = MadeCard.Sighting(square, random, 0.08);
        PrintMeasurement bars = PrintMeasurement.FromReadings(40, 30);
        Measured alone = CardCalibrator.Calibrate(s, DefaultCard.Card, bars).Value.DistanceMm, known = CardCalibrator.Calibrate(s, DefaultCard.Card, bars, profile).Value.DistanceMm;
        Assert.True(alone.StandardUncertainty > 5, $"{alone}");
        // Refocusing leaves 1 % of the focal length open, and 2 % of k1; the picture shows k1 / f², which gives another 1 %: together 0.7 % of 92 mm.
        Assert.InRange(known.StandardUncertainty, 0.9 * 0.65, 1.3 * 0.65);
        Assert.InRange((known.Value - 92) / known.StandardUncertainty, -2, 2);
    }

    [Fact]
    public void A_profile_survives_its_file()
    {
        LensProfile p = Made(), back = LensProfile.FromJson(p.ToJson()).Value;
        Assert.Equal((p.Name, p.WidthPx, p.HeightPx, p.Camera, p.PhotographCount, p.CornerResidualPx, p.Date), (back.Name, back.WidthPx, back.HeightPx, back.Camera, back.PhotographCount, back.CornerResidualPx, back.Date));
        Assert.Equal(p.Covariance, back.Covariance);
        Assert.Equal(p.ToJson(), back.ToJson());
    }

    [Theory]
    [InlineData("\"name\": \"made\"", "\"name\": \"\"", "name")]
    [InlineData("\"picture_px\": [\n    4000", "\"picture_px\": [\n    4000.5", "picture_px")]
    [InlineData("\"photographs\": 6", "\"photographs\": 1", "photographs")]
    [InlineData("\"date\": \"2025-03-14\"", "\"date\": \"14.3.2025\"", "date")]
    [InlineData("\"focal_length_px\": {\n    \"value\": ", "\"focal_length_px\": {\n    \"value\": -", "focal_length_px.value")]
    [InlineData("\"k1\": {\n    \"value\": ", "\"k1\": {\n    \"value\": true, \"was\": ", "k1.value")]
    [InlineData("\"covariance\": [\n    ", "\"covariance\": [\n    1e9, ", "covariance")]
    public void A_wrong_field_of_the_file_is_named(string old, string now, string field)
    {
        string json = Made().ToJson().Replace("\r\n", "\n", StringComparison.Ordinal);
        Assert.Contains(old, json, StringComparison.Ordinal);
        Assert.False(LensProfile.FromJson(json.Replace(old, now, StringComparison.Ordinal)).TryGet(out _, out Refusal? refusal));
        Assert.Equal("lens-profile-file", refusal.Code);
        Assert.Contains($"Field {field} is", refusal.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_covariance_that_is_none_is_refused()
    {
        LensProfile p = Made();
        // A correlation above 1 between focal length and k1.
        double[] c = [.. p.Covariance];
        c[1] = c[4] = 1.01 * Math.Sqrt(c[0] * c[5]);
        LensProfile wrong = new(p.Name, p.WidthPx, p.HeightPx, p.Camera, [.. c], p.PhotographCount, p.CornerResidualPx, p.Date);
        Assert.False(LensProfile.FromJson(wrong.ToJson()).TryGet(out _, out Refusal? refusal));
        Assert.Contains("positive definite", refusal.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_scaled_picture_has_a_scaled_profile_and_another_aspect_none()
    {
        LensProfile p = Made(), half = p.For(2000, 1500).Value;
        Assert.Equal(p.Camera.FocalLengthPx / 2, half.Camera.FocalLengthPx, 1e-9);
        // Pixel centres map by (x + 0.5) / 2 - 0.5.
        Assert.Equal((p.Camera.CentreXPx + 0.5) / 2 - 0.5, half.Camera.CentreXPx, 1e-9);
        Assert.Equal(p.K1, half.K1);
        Assert.Equal(p.FocalLengthPx.StandardUncertainty / 2, half.FocalLengthPx.StandardUncertainty, 1e-9);

        foreach ((int w, int h) in new[] { (3000, 4000), (4000, 2250) })
        {
            Assert.False(p.For(w, h).TryGet(out _, out Refusal? refusal));
            Assert.Equal("lens-profile-size", refusal.Code);
            Assert.Contains("4000 x 3000", refusal.Reason, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_photograph_with_another_lens_is_refused()
    {
        Random random = new(53);
        LensProfile profile = Made();
        CardGeometry other = MadeCard.Geometry(tiltXDeg: 10, k1: profile.Camera.K1 + 0.5);
        Assert.False(CardCalibrator.Calibrate(MadeCard.Sighting(other, random, 0.08), DefaultCard.Card, PrintMeasurement.FromReadings(40, 30), profile).TryGet(out _, out Refusal? refusal));
        Assert.Equal("lens-profile-other", refusal.Code);
    }

    [Fact]
    public void Photographs_with_two_lenses_are_refused()
    {
        Random random = new(54);
        CardGeometry lens = MadeCard.Geometry(), zoomed = lens with { Camera = lens.Camera with { FocalLengthPx = 1.3 * lens.Camera.FocalLengthPx, K1 = -0.3 } };
        CardSighting[] mixed = [.. Photographs(lens, random).Take(3), .. Photographs(zoomed, random).Take(3)];
        Assert.False(LensProfiler.Estimate(mixed, DefaultCard.Card, PrintMeasurement.FromReadings(40, 30), "mixed", Day).TryGet(out _, out Refusal? refusal));
        Assert.Equal("lens-profile-mixed", refusal.Code);
    }

    [Fact]
    public void Photographs_all_square_to_the_card_or_too_few_of_them_are_refused()
    {
        Random random = new(55);
        CardGeometry square = MadeCard.Geometry(tiltXDeg: 0.3, tiltYDeg: 0.2);
        CardSighting[] four = [.. Enumerable.Range(0, 4).Select(_ => MadeCard.Sighting(square, random, 0.08))];
        Assert.Equal("lens-profile-weak", LensProfiler.Estimate(four, DefaultCard.Card, PrintMeasurement.FromReadings(40, 30), "weak", Day).Refusal?.Code);
        Assert.Equal("lens-profile-photographs", LensProfiler.Estimate(four[..2], DefaultCard.Card, PrintMeasurement.FromReadings(40, 30), "few", Day).Refusal?.Code);
        CardSighting[] sizes = [four[0], four[1], four[2] with { WidthPx = 3000, HeightPx = 4000 }];
        Assert.Equal("lens-profile-size", LensProfiler.Estimate(sizes, DefaultCard.Card, PrintMeasurement.FromReadings(40, 30), "sizes", Day).Refusal?.Code);
    }

    private static LensProfile Made()
    {
        Random random = new(50);
        return LensProfiler.Estimate(Photographs(MadeCard.Geometry(), random), DefaultCard.Card, PrintMeasurement.FromReadings(40, 30), "made", Day).Value;
    }

    /// <summary>Six photographs with one lens and print: tilted by 12° to six sides.</summary>
    private static CardSighting[] Photographs(CardGeometry lens, Random random) =>
    [
        .. Enumerable.Range(0, 6).Select(i => MadeCard.Sighting(
            lens with { CameraFromCard = MadeCard.Geometry(tiltXDeg: 12 * Math.Cos(i * Math.PI / 3), tiltYDeg: 12 * Math.Sin(i * Math.PI / 3)).CameraFromCard }, random, 0.08, MadeCard.IsInSparseColumn)),
    ];
}
