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

    /// <summary>The kind of a marker's k-th corner in OpenCV's order.</summary>
    public static CornerKind KindOf(int k) => k switch
    {
        0 => CornerKind.MarkerTopLeft,
        1 => CornerKind.MarkerTopRight,
        2 => CornerKind.MarkerBottomRight,
        _ => CornerKind.MarkerBottomLeft,
    };

    /// <summary>Four corners for each marker that is on the card and was seen once; full-picture pixels.</summary>
    public static ImmutableArray<CardCorner> Read(Mat grey8, CardDescription card, int longerSidePx)
    {
        double scale = Math.Min(1, (double)longerSidePx / Math.Max(grey8.Cols, grey8.Rows));
        using Mat reduced = new();
        Cv2.Resize(grey8, reduced, new Size(Math.Round(grey8.Cols * scale), Math.Round(grey8.Rows * scale)), 0, 0, InterpolationFlags.Area);
        double perX = (double)grey8.Cols / reduced.Cols, perY = (double)grey8.Rows / reduced.Rows;

        using Dictionary dictionary = CvAruco.GetPredefinedDictionary(card.Board.Dictionary.Type);
        using ArucoDetector detector = new(dictionary);
        detector.DetectMarkers(reduced, out Point2f[][] corners, out int[] ids, out _);
        HashSet<int> standing = [.. card.StandingMarkers];
        HashSet<int> twice = [.. ids.GroupBy(id => id).Where(g => g.Count() > 1).Select(g => g.Key)];

        var found = ImmutableArray.CreateBuilder<CardCorner>();
        for (int m = 0; m < ids.Length; m++)
        {
            if (!standing.Contains(ids[m]) || twice.Contains(ids[m])) continue;
            ImmutableArray<DesignPoint> design = card.MarkerCorners(ids[m]);
            for (int k = 0; k < 4; k++)
            {
                // Resize keeps the pictures' outer borders together: pixel centres map by (x + 0.5) s - 0.5.
                PixelPoint p = new((corners[m][k].X + 0.5) * perX - 0.5, (corners[m][k].Y + 0.5) * perY - 0.5);
                found.Add(new(design[k], p, KindOf(k), ReducedUncertaintyPx * perX));
            }
        }
        return found.ToImmutable();
    }
}
