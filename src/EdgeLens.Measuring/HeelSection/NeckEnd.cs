using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Lines;
using EdgeLens.Imaging.Silhouettes;
using EdgeLens.Measuring.ToeView;

namespace EdgeLens.Measuring.HeelSection;

/// <summary>Where the contour of a scaler's neck reaches out farthest on one side: about at the corner of its face.</summary>
/// <param name="Side">1 right in the picture, -1 left.</param>
/// <param name="Place">Pixels, within some 0.1 mm.</param>
/// <param name="Inside">A pixel in the steel.</param>
/// <param name="Up">Unit direction in which the neck's contour leads up from there.</param>
/// <param name="Down">Unit direction of the shank's axis, downwards.</param>
/// <param name="Outward">Unit direction square to the axis, to the side.</param>
internal readonly record struct NeckEnd(int Side, PixelPoint Place, PixelPoint Inside, Vector2 Up, Vector2 Down, Vector2 Outward)
{
    // From 0.6 mm above where the shank begins to widen to 2.4 mm below: necks are 0.5 to 1.5 mm long, heels 0.6 to 1.1 mm deep.
    private const double AboveMm = 0.6, BelowMm = 2.4;

    // Contours are sought between 0.05 and 1.45 mm beside the shank's axis; blades are 1.0 to 1.5 mm wide at the heel.
    private const double MiddleMm = 0.75, HalfRangeMm = 0.7;
    private const double StepMm = 0.02;

    private const double NeckMm = 0.28;
    private const int GroundPx = 15, HalfWindow = 2, HalfMedian = 3;

    /// <summary>Finds it.</summary>
    /// <param name="picture">The photograph.</param>
    /// <param name="region">The card's window.</param>
    /// <param name="shank">The terminal shank.</param>
    /// <param name="side">1 right in the picture, -1 left.</param>
    /// <param name="mmPerPx">At the heel.</param>
    /// <returns>Null where nothing stands out beside the shank.</returns>
    public static NeckEnd? Find(TonePicture picture, WindowRegion region, TerminalShank shank, int side, double mmPerPx)
    {
        Vector2 down = new Vector2(shank.Bottom.X - shank.Top.X, shank.Bottom.Y - shank.Top.Y).Unit, outward = -side * down.Perpendicular;
        double end = -AboveMm;
        while (end < BelowMm && region.Holds(At(end, MiddleMm + HalfRangeMm))) end += StepMm;
        if (end < 0) return null;
        int halfRange = (int)(HalfRangeMm / mmPerPx);
        Stretch line = Stretch.Between(At(-AboveMm, MiddleMm), At(end, MiddleMm), At(0, 0));
        (double[] outwardPx, _) = ContourLine.Departures(new LineStrip(picture, line, halfRange, halfRange), GroundPx, HalfWindow);
        // Single rows jump where noise departs.
        double[] contour = RobustSmoother.RunningMedian(outwardPx, HalfMedian, HalfMedian + 1);
        int[] seen = [.. Enumerable.Range(0, contour.Length).Where(i => double.IsFinite(contour[i]))];
        if (seen.Length == 0) return null;
        int row = seen.MaxBy(i => contour[i]), above = seen.First(i => i >= row - NeckMm / mmPerPx);
        if (above == row) return null;
        PixelPoint place = line.At(row, contour[row]), from = line.At(above, contour[above]);
        return new(side, place, line.At(row, -halfRange), new Vector2(from.X - place.X, from.Y - place.Y).Unit, line.Along, line.Outward);

        PixelPoint At(double alongMm, double outMm) =>
            new(shank.Neck.X + (alongMm * down.X + outMm * outward.X) / mmPerPx, shank.Neck.Y + (alongMm * down.Y + outMm * outward.Y) / mmPerPx);
    }
}
