using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Tests.Cards;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Calibration;

/// <summary>Pictures of the card drawn by OpenCV, seen through a camera with known tilt and distortion, blurred and noisy by known amounts.</summary>
public sealed class CardDetectorTests
{
    private const int Width = 1000;

    /// <summary>
    /// Corner errors against the truth, sharp and out of focus. Noise of 0.008 in light against a contrast of 0.355 predicts what each corner's own
    /// uncertainty says: errors over it (the floor of 0.02 px taken off) have a mean square of 1; over some 300 coordinates it scatters by 0.08.
    /// In a sharp picture a pixel's square shape, which the Gaussian of the model does not have, adds 0.006 px: found with noise turned off, and no longer there at 2.5 px.
    /// Bias: no more than 0.01 px on average, in x, in y, and for markers outwards, where tone values would give up to half a pixel.
    /// </summary>
    [Theory]
    [InlineData(0.8)]
    [InlineData(2.5)]
    [InlineData(5.0)]
    public void Corners_are_found_without_bias_and_as_well_as_the_noise_lets_them(double blurSigmaPx)
    {
        CardGeometry truth = MadeCard.Geometry(Width, 28, k1: 0.3);
        using Mat picture = MadeCard.Picture(truth, Width, blurSigmaPx, 0.008, new Random(31));
        CardSighting s = CardDetector.Detect(picture, DefaultCard.Card).Value;
        double[] dx = new double[CardGeometry.ParameterCount], dy = new double[CardGeometry.ParameterCount];
        double pixelShapePx = blurSigmaPx < 1 ? 0.006 : 0, meanX = 0, meanY = 0, outwards = 0, squares = 0, markers = 0;
        CardCorner[] corners = [.. s.Corners.Where(IsAwayFromTheBorder)];
        foreach (CardCorner c in corners)
        {
            PixelPoint p = CornerProjection.Project(truth, c, dx, dy);
            double ex = c.Pixel.X - p.X, ey = c.Pixel.Y - p.Y;
            (meanX, meanY) = (meanX + ex / corners.Length, meanY + ey / corners.Length);
            double noise = c.StandardUncertaintyPx * c.StandardUncertaintyPx - CornerLocator.LeastUncertaintyPx * CornerLocator.LeastUncertaintyPx;
            squares += (ex * ex + ey * ey) / (noise + pixelShapePx * pixelShapePx) / 2 / corners.Length;
            if (c.Kind == CornerKind.Board) continue;
            // The derivative by spread ink points outwards.
            outwards += (ex * dx[CardGeometry.Ink] + ey * dy[CardGeometry.Ink]) / Math.Sqrt(dx[CardGeometry.Ink] * dx[CardGeometry.Ink] + dy[CardGeometry.Ink] * dy[CardGeometry.Ink]);
            markers++;
        }
        string told = FormattableString.Invariant($"{corners.Length} corners, mean {meanX:F4} {meanY:F4}, outwards {outwards / markers:F4}, mean square {squares:F2}, blur {s.BlurSigmaPx:F2}");
        Assert.True(corners.Length > 80 && markers > 50, told);
        double allowed = 0.01 * Math.Max(1, blurSigmaPx / 2);
        Assert.True(Math.Abs(meanX) < allowed && Math.Abs(meanY) < allowed && Math.Abs(outwards / markers) < allowed, told);
        Assert.True(squares is > 0.7 and < 1.3, told);
        // A pixel's own width adds 1/12 px² to the blur.
        Assert.InRange(s.BlurSigmaPx, 0.97 * Math.Sqrt(blurSigmaPx * blurSigmaPx + 1 / 12.0), 1.03 * Math.Sqrt(blurSigmaPx * blurSigmaPx + 1 / 12.0));
    }

    /// <summary>The rival: gradients of the tone values (OpenCV's corner refinement) move a marker's corner into the black; light does not. That is why corners are fitted in light.</summary>
    [Fact]
    public void Tone_values_would_put_the_corners_of_markers_off_towards_the_black()
    {
        CardGeometry truth = MadeCard.Geometry(Width, 28);
        using Mat picture = MadeCard.Picture(truth, Width, 2, 0.004, new Random(36));
        CardCorner[] markers = [.. CardDetector.Detect(picture, DefaultCard.Card).Value.Corners.Where(c => c.Kind != CornerKind.Board && IsAwayFromTheBorder(c))];
        Point2f[] tones = Cv2.CornerSubPix(
            picture, markers.Select(c => new Point2f((float)c.Pixel.X, (float)c.Pixel.Y)), new Size(5, 5), new Size(-1, -1), TermCriteria.Both(40, 1e-3));
        double[] dx = new double[CardGeometry.ParameterCount], dy = new double[CardGeometry.ParameterCount];
        double ours = 0, theirs = 0;
        for (int i = 0; i < markers.Length; i++)
        {
            PixelPoint p = CornerProjection.Project(truth, markers[i], dx, dy);
            Vector2 outwards = new Vector2(dx[CardGeometry.Ink], dy[CardGeometry.Ink]).Unit;
            ours += outwards.Dot(new(markers[i].Pixel.X - p.X, markers[i].Pixel.Y - p.Y)) / markers.Length;
            theirs += outwards.Dot(new(tones[i].X - p.X, tones[i].Y - p.Y)) / markers.Length;
        }
        Assert.InRange(ours, -0.01, 0.01);
        Assert.InRange(theirs, -3, -0.2);
    }

    [Fact]
    public void A_picture_gives_back_the_camera_that_took_it()
    {
        CardGeometry truth = MadeCard.Geometry(Width, 24, tiltXDeg: 7, tiltYDeg: -4, k1: -0.3);
        using Mat picture = MadeCard.Picture(truth, Width, 1, 0.01, new Random(32));
        CardCalibration c = Calibrate(picture);
        Assert.True(c.CornerResidualPx < 0.1, $"{c.CornerResidualPx} px");
        Assert.InRange((c.K1.Value + 0.3) / c.K1.StandardUncertainty, -3.3, 3.3);
        CardPoint middle = c.Printed(DefaultCard.Card.Window.Centre);
        PixelPoint seen = c.Project(middle, 0), real = truth.Project(truth.Printed(DefaultCard.Card.Window.Centre), 0);
        Assert.InRange(seen.X - real.X, -0.05, 0.05);
        Assert.InRange(seen.Y - real.Y, -0.05, 0.05);
        ScaleBudget budget = c.ScaleBudget(new Measured(0, 0));
        (Vector2 tx, Vector2 ty) = truth.PlanePerPixel(real, 0);
        Assert.InRange(c.MmPerPx(middle, 0) / Math.Sqrt(Math.Abs(tx.Cross(ty))) - 1, -3.3 * budget.RelativeStandardUncertainty, 3.3 * budget.RelativeStandardUncertainty);
    }

    [Fact]
    public void A_card_half_hidden_by_a_shank_is_found_and_the_shank_does_no_harm()
    {
        CardGeometry truth = MadeCard.Geometry(Width, 24);
        // A bar from the left to the middle, and the whole right half below it.
        bool Covered(double x, double y) => (y > 270 && y < 400 && x < 500) || (x > 500 && y > 400);
        using Mat picture = MadeCard.Picture(truth, Width, 1.2, 0.008, new Random(33), Covered), whole = MadeCard.Picture(truth, Width, 1.2, 0.008, new Random(33));
        CardCalibration hidden = Calibrate(picture), free = Calibrate(whole);
        Assert.InRange(hidden.CornerCount, 40, (int)(0.85 * free.CornerCount));
        Assert.True(hidden.CornerResidualPx < 0.1, $"{hidden.CornerResidualPx} px");
        CardPoint middle = free.Printed(DefaultCard.Card.Window.Centre);
        ScaleBudget budget = hidden.ScaleBudget(new Measured(0, 0));
        Assert.InRange(hidden.MmPerPx(middle, 0) / free.MmPerPx(middle, 0) - 1, -4 * budget.WithoutHeight, 4 * budget.WithoutHeight);
    }

    [Fact]
    public void No_card_is_refused_with_the_number_of_markers_and_the_least_needed()
    {
        using Mat grey = new(900, 1200, MatType.CV_8UC1, new Scalar(90));
        Assert.False(CardDetector.Detect(grey, DefaultCard.Card).TryGet(out _, out Refusal? refusal));
        Assert.Equal(("no-card", 0.0, (double)CardDetector.MinMarkers), (refusal.Code, refusal.Figure, refusal.Limit));

        // A card of which two markers are left.
        CardGeometry truth = MadeCard.Geometry(Width, 24);
        PixelPoint a = truth.Project(new(42, 18), 0);
        using Mat almost = MadeCard.Picture(truth, Width, 1, 0.008, new Random(34), (x, y) => Math.Abs(x - a.X) > 100 || Math.Abs(y - a.Y) > 60);
        Assert.False(CardDetector.Detect(almost, DefaultCard.Card).TryGet(out _, out refusal));
        Assert.Equal("no-card", refusal.Code);
        Assert.InRange(refusal.Figure!.Value, 0, CardDetector.MinMarkers - 1);
    }

    [Fact]
    public void Another_picture_than_8_bit_grey_is_our_mistake()
    {
        using Mat colour = new(100, 100, MatType.CV_8UC3, Scalar.All(0));
        Assert.Throws<ArgumentException>(() => CardDetector.Detect(colour, DefaultCard.Card));
    }

    [Fact]
    public void The_same_picture_gives_the_same_figures()
    {
        using Mat picture = MadeCard.Picture(MadeCard.Geometry(Width, 24), Width, 1, 0.01, new Random(35));
        Assert.Equal(CardDetector.Detect(picture, DefaultCard.Card).Value.Corners, CardDetector.Detect(picture, DefaultCard.Card).Value.Corners);
    }

    /// <summary>The made picture is mirrored at its border before it is blurred; a real one goes on.</summary>
    private static bool IsAwayFromTheBorder(CardCorner c) => c.Pixel.X is > 40 and < Width - 41 && c.Pixel.Y is > 40 and < Width * 3 / 4 - 41;

    private static CardCalibration Calibrate(Mat picture) =>
        CardCalibrator.Calibrate(CardDetector.Detect(picture, DefaultCard.Card).Value, DefaultCard.Card, PrintMeasurement.FromReadings(40, 30)).Value;
}
