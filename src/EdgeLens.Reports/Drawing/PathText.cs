using System.Text;
using EdgeLens.Geometry.Plane;
using EdgeLens.Reports.Html;

namespace EdgeLens.Reports.Drawing;

/// <summary>Polylines as SVG paths.</summary>
internal static class PathText
{
    // A third of a pixel: a chord this short leaves a curve of 10 px radius by 0.001 px.
    private const double ShortestStepPx = 0.33;

    /// <summary>A polyline; points nearer than a third of a pixel to the last one kept are dropped, the end is kept.</summary>
    /// <param name="points">In the drawing's own units (0 is an edge, not a pixel's centre).</param>
    /// <param name="isClosed">Whether the last point is joined to the first.</param>
    public static string Of(IEnumerable<Vector2> points, bool isClosed = false)
    {
        StringBuilder path = new();
        Vector2? kept = null, dropped = null;
        foreach (Vector2 p in points)
        {
            if (kept is { } k && (p - k).Length < ShortestStepPx)
            {
                dropped = p;
                continue;
            }
            Append(path, p);
            kept = p;
            dropped = null;
        }
        if (dropped is { } last) Append(path, last);
        if (isClosed) path.Append('Z');
        return path.ToString();
    }

    /// <summary>From pixel centres at whole numbers to SVG, where whole numbers are the pixels' edges.</summary>
    public static Vector2 FromPixelCentres(PixelPoint p) => new(p.X + 0.5, p.Y + 0.5);

    private static void Append(StringBuilder path, Vector2 p) => path.Append(path.Length == 0 ? 'M' : 'L').Append(Markup.Px(p.X)).Append(' ').Append(Markup.Px(p.Y));
}
