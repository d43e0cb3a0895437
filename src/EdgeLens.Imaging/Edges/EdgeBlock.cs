using EdgeLens.Geometry.Plane;
using OpenCvSharp;

namespace EdgeLens.Imaging.Edges;

/// <summary>A short piece of edge in the picture: where it is thought to be, and which way is out.</summary>
/// <param name="Centre">On the supposed silhouette, pixels.</param>
/// <param name="Outward">Unit normal away from the steel, components along pixel x and y.</param>
/// <param name="CurvaturePerPx">Reciprocal radius of the silhouette, positive where the steel is convex.</param>
/// <param name="HalfLengthPx">How far along the edge pixels take part, to either side.</param>
/// <param name="InnerReachPx">How far into the steel pixels take part: less than the steel's half width, so that the opposite edge stays out.</param>
public readonly record struct EdgePlace(PixelPoint Centre, Vector2 Outward, double CurvaturePerPx, double HalfLengthPx, double InnerReachPx);

/// <summary>The raw pixels of a block: tone and signed distance from the supposed silhouette. No resampling: noise stays white.</summary>
public sealed class EdgeBlock
{
    // JPEG and rounding leave a clipped pixel within a grey level of white; one such pixel may be a spark on a scratch.
    private const byte ClippedTone = 254;
    private const int LeastClipped = 3;

    // The line on a rounding of up to 7 px lies within this of the silhouette (0.76 radii at its deepest); farther in it is the face that is clipped.
    private const double ClippedReachPx = 5;

    private readonly List<double> _tones = [];
    private readonly List<double> _distancesPx = [];
    private readonly List<EdgeProfileModel.GridPlace> _places = [];

    /// <summary>How a rounding at this place shows the panels.</summary>
    public RoundingLight Light { get; internal set; }

    /// <summary>False when the edge here faces no panel: then a rounding shows no line.</summary>
    public bool FacesPanel { get; internal set; } = true;

    /// <summary>True when several of the pixels next to the silhouette are at full scale: the bright line is cut off at the top.</summary>
    public bool IsClipped { get; private set; }

    /// <summary>Tone values, 0..1.</summary>
    public ReadOnlySpan<double> Tones => System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_tones);

    /// <summary>Distances from the supposed silhouette, positive outwards, pixels.</summary>
    public ReadOnlySpan<double> DistancesPx => System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_distancesPx);

    internal ReadOnlySpan<EdgeProfileModel.GridPlace> Places => System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_places);

    /// <summary>Takes the pixels about a place; what was there before is forgotten.</summary>
    /// <param name="grey">CV_8UC1, borrowed.</param>
    /// <param name="place">Which piece of edge.</param>
    /// <param name="light">How a rounding shows the panels there.</param>
    public void Fill(Mat grey, in EdgePlace place, in RoundingLight light)
    {
        Light = light;
        int clipped = 0;
        _tones.Clear();
        _distancesPx.Clear();
        _places.Clear();
        Vector2 along = place.Outward.Perpendicular;
        double half = place.HalfLengthPx, outer = EdgeProfileModel.ReachPx, reach = Math.Max(outer, place.InnerReachPx) + half;
        int top = Math.Max(0, (int)Math.Ceiling(place.Centre.Y - reach)), bottom = Math.Min(grey.Rows - 1, (int)Math.Floor(place.Centre.Y + reach));
        int left = Math.Max(0, (int)Math.Ceiling(place.Centre.X - reach)), right = Math.Min(grey.Cols - 1, (int)Math.Floor(place.Centre.X + reach));
        for (int y = top; y <= bottom; y++)
        {
            ReadOnlySpan<byte> row = grey.RowSpan<byte>(y);
            double dy = y - place.Centre.Y;
            for (int x = left; x <= right; x++)
            {
                double dx = x - place.Centre.X;
                double v = dx * along.X + dy * along.Y;
                if (Math.Abs(v) > half) continue;
                double u = dx * place.Outward.X + dy * place.Outward.Y + 0.5 * place.CurvaturePerPx * v * v;
                if (u > outer || u < -place.InnerReachPx) continue;
                if (row[x] >= ClippedTone && Math.Abs(u) < ClippedReachPx) clipped++;
                _tones.Add(row[x] / 255.0);
                _distancesPx.Add(u);
                _places.Add(EdgeProfileModel.Place(u));
            }
        }
        IsClipped = clipped >= LeastClipped;
    }
}
