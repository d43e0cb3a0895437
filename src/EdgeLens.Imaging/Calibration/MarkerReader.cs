using System.Collections.Immutable;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Cards;
using OpenCvSharp;
using OpenCvSharp.Aruco;

namespace EdgeLens.Imaging.Calibration;

/// <summary>Reads the card's markers on a reduced picture.</summary>
internal static class MarkerReader
{
    /// <summary>Corners found on the reduced picture are good to about half of its pixels.</summary>
    private const double ReducedUncertaintyPx = 0.5;

    /// <summary>Thresholds over 13 to 43 px, the size of markers rather than of bits.</summary>
    /// <param name="errorCorrectionRate">Of the wrong bits that the dictionary can correct, the share that is allowed.</param>
    private static DetectorParameters Parameters(double errorCorrectionRate) =>
        new() { AdaptiveThreshWinSizeMin = 13, AdaptiveThreshWinSizeMax = 43, AdaptiveThreshWinSizeStep = 15, ErrorCorrectionRate = errorCorrectionRate };

    /// <summary>The kind of a marker's k-th corner in OpenCV's order.</summary>
    public static CornerKind KindOf(int k) => k switch
    {
        0 => CornerKind.MarkerTopLeft,
        1 => CornerKind.MarkerTopRight,
        2 => CornerKind.MarkerBottomRight,
        _ => CornerKind.MarkerBottomLeft,
    };

    /// <summary>One way to look for markers.</summary>
    /// <param name="LongerSidePx">Of the reduced picture.</param>
    /// <param name="Sharpen">How much of what a Gaussian of 4 px takes away is added: brings back bits that run into each other when the card is out of focus.</param>
    public sealed record Attempt(int LongerSidePx, double Sharpen);

    /// <summary>
    /// Tried in turn. At 1000 px a marker of 1.5 mm in a field of 30 mm has 50 px, 7 for each bit: as small as is read reliably, and the fastest;
    /// sharpened for a card behind the blade, out of focus; at 2000 px for smaller markers.
    /// </summary>
    public static ImmutableArray<Attempt> Attempts { get; } = [new(1000, 0), new(1000, 2), new(2000, 0)];

    /// <summary>A marker as found: id and corners in OpenCV's order, full-picture pixels.</summary>
    public sealed record FoundMarker(int Id, ImmutableArray<PixelPoint> Corners, double StandardUncertaintyPx);

    /// <summary>Four corners for each marker that is on the card and was seen once; full-picture pixels.</summary>
    /// <remarks>All wrong bits that the dictionary can correct are allowed: a misread marker does not agree with the others and is dropped, a blurred one read with two wrong bits is worth having.</remarks>
    public static ImmutableArray<CardCorner> Read(Mat grey8, CardDescription card, Attempt attempt)
    {
        ImmutableArray<FoundMarker> found = Find(grey8, card.Board.Dictionary, errorCorrectionRate: 1, attempt);
        HashSet<int> standing = [.. card.StandingMarkers];
        HashSet<int> twice = [.. found.GroupBy(m => m.Id).Where(g => g.Count() > 1).Select(g => g.Key)];
        return
        [
            .. from marker in found
               where standing.Contains(marker.Id) && !twice.Contains(marker.Id)
               let design = card.MarkerCorners(marker.Id)
               from k in Enumerable.Range(0, 4)
               select new CardCorner(design[k], marker.Corners[k], KindOf(k), marker.StandardUncertaintyPx),
        ];
    }

    /// <summary>All markers of a family in a picture.</summary>
    /// <param name="grey8">Borrowed.</param>
    /// <param name="family">Which markers.</param>
    /// <param name="errorCorrectionRate">Of the wrong bits that the family can correct, the share that is allowed; 0 to 1.</param>
    /// <param name="attempt">On which reduced picture.</param>
    public static ImmutableArray<FoundMarker> Find(Mat grey8, MarkerDictionary family, double errorCorrectionRate, Attempt attempt)
    {
        double scale = Math.Min(1, (double)attempt.LongerSidePx / Math.Max(grey8.Cols, grey8.Rows));
        using Mat reduced = new();
        Cv2.Resize(grey8, reduced, new Size(Math.Round(grey8.Cols * scale), Math.Round(grey8.Rows * scale)), 0, 0, InterpolationFlags.Area);
        double perX = (double)grey8.Cols / reduced.Cols, perY = (double)grey8.Rows / reduced.Rows;
        if (attempt.Sharpen > 0)
        {
            using Mat smooth = new();
            Cv2.GaussianBlur(reduced, smooth, new Size(0, 0), 4);
            Cv2.AddWeighted(reduced, 1 + attempt.Sharpen, smooth, -attempt.Sharpen, 0, reduced);
        }

        using Dictionary dictionary = CvAruco.GetPredefinedDictionary(family.Type);
        using ArucoDetector detector = new(dictionary, Parameters(errorCorrectionRate), new RefineParameters());
        detector.DetectMarkers(reduced, out Point2f[][] corners, out int[] ids, out _);
        // Resize keeps the pictures' outer borders together: pixel centres map by (x + 0.5) s - 0.5.
        return [.. ids.Zip(corners).Select(m => new FoundMarker(m.First, [.. m.Second.Select(c => new PixelPoint((c.X + 0.5) * perX - 0.5, (c.Y + 0.5) * perY - 0.5))], ReducedUncertaintyPx * perX))];
    }
}
