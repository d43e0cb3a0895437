using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Imaging.Silhouettes;
using EdgeLens.Measuring.Inspection;
using EdgeLens.Measuring.Quality;
using OpenCvSharp;

namespace EdgeLens.Measuring.RoundGauge;

/// <summary>Measures a blackened needle or pin that lies across the card's window over white paper: docs/verification.md.</summary>
/// <remarks>
/// Why black on white: bare steel over the black recess mirrors the recess near its silhouette (a ray that meets the rod at φ from the silhouette leaves it turned by
/// 2φ and stays in the recess up to 2φ = 85°), so that the outer quarter of the radius on either side is as black as the ground.
/// </remarks>
public static class RodMeasurer
{
    // Edges are fitted in stretches of this length: long enough for a hundredth of a pixel, short enough that the lens bends them by less (k1 of 0.5 at a corner: 0.02 px).
    private const int StretchPx = 90;

    // Blur of a photograph in focus, pixels either way.
    private const double LeastBlurPx = 0.5, GreatestBlurPx = 5;

    // Of the paper's linear brightness: a rod brighter than a third of it is not blackened.
    private const double GreatestRodShare = 1.0 / 3;

    private const int ReachPx = 7;

    /// <summary>Measures one photograph.</summary>
    /// <param name="photo">Borrowed.</param>
    /// <param name="card">In the photograph.</param>
    /// <param name="print">The card's bars as measured.</param>
    /// <param name="lens">Of the phone and loupe, if there is one.</param>
    /// <returns>The diameter, or why it cannot be measured.</returns>
    public static Outcome<RodDiameter> Measure(Photograph photo, CardDescription card, PrintMeasurement print, LensProfile? lens)
    {
        ArgumentNullException.ThrowIfNull(photo);
        ArgumentNullException.ThrowIfNull(card);
        if (!CardStage.Calibrate(photo, card, print, lens).TryGet(out CardCalibration? calibration, out Refusal? refusal)) return refusal;
        double greatestTiltDeg = new InspectorOptions().GreatestTiltDeg;
        if (calibration.TiltDeg.Value > greatestTiltDeg)
            return new Refusal("too-tilted", "The camera was not square to the card", "Hold the phone parallel to the card and take the photograph again.", calibration.TiltDeg.Value, greatestTiltDeg, "°");
        using WindowRegion? region = WindowRegion.Of(calibration, card, new Size(photo.WidthPx, photo.HeightPx));
        if (region is null) return CaptureGate.WindowNotSeen;
        if (!RodSides.Find(photo.Grey, region, GreatestRodShare).TryGet(out RodSides? sides, out refusal)) return refusal;
        TonePicture picture = TonePicture.Of(photo.Grey);
        Sharpening sharpening = SharpeningEstimator.Estimate(photo.Grey, calibration, card);
        return RodDiameter.Of(calibration, [.. Edge(sides.First, sides.Middle)], [.. Edge(sides.Second, sides.Middle)]);

        IEnumerable<PixelPoint> Edge((PixelPoint From, PixelPoint To) side, PixelPoint inside)
        {
            Stretch whole = Stretch.Between(side.From, side.To, inside);
            for (double at = 0; at + StretchPx <= whole.LengthPx; at += StretchPx)
            {
                Stretch start = Stretch.Between(whole.At(at, 0), whole.At(at + StretchPx, 0), inside);
                // Twice: the scanned line may lie two pixels off, near the limit of what one fit moves.
                StraightEdge fit = Fit(Fit(start).Line);
                if (!fit.BlurAtLimit) yield return fit.Line.At(fit.Line.LengthPx / 2, 0);
            }
        }

        StraightEdge Fit(Stretch stretch) => StraightEdgeFitter.Fit(picture, stretch, sharpening, ReachPx, ReachPx, LeastBlurPx, GreatestBlurPx);
    }
}
