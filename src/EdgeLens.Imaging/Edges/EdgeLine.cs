using System.Collections.Immutable;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Imaging.Edges;

/// <summary>A curve in the picture along which an edge runs, one point per pixel, with direction and bend from a local quadratic fit.</summary>
public sealed class EdgeLine
{
    // The quadratic is fitted over this many points to either side: a toe of 0.4 mm radius turns by 7° in it, a scaler's tip (6 px) by 50°.
    private const int FitPoints = 5;
    private readonly ImmutableArray<PixelPoint> _points;

    /// <param name="points">At least eleven, about a pixel apart, smooth.</param>
    /// <param name="steelOnLeft">True when the steel lies to the side of (-ty, tx) of the direction (tx, ty) in which the points run.</param>
    public EdgeLine(ImmutableArray<PixelPoint> points, bool steelOnLeft)
    {
        if (points.Length < 2 * FitPoints + 1) throw new ArgumentException($"An edge line needs at least {2 * FitPoints + 1} points, got {points.Length}.", nameof(points));
        _points = points;
        SteelOnLeft = steelOnLeft;
    }

    /// <summary>The curve.</summary>
    public ImmutableArray<PixelPoint> Points => _points;

    /// <summary>Side of the steel.</summary>
    public bool SteelOnLeft { get; }

    /// <summary>Makes a line of even, pixel-wide steps through the points after smoothing them over ± <paramref name="smoothing"/> points.</summary>
    /// <param name="points">In order; about a pixel apart.</param>
    /// <param name="smoothing">Points to either side for the local quadratic; 0 for none.</param>
    public static EdgeLine Through(IReadOnlyList<PixelPoint> points, int smoothing)
    {
        ArgumentNullException.ThrowIfNull(points);
        List<PixelPoint> smooth = smoothing == 0 ? [.. points] : [.. Enumerable.Range(0, points.Count).Select(i => Quadratic(points, i, smoothing).At)];
        double area = 0;
        for (int i = 0; i < smooth.Count; i++)
        {
            PixelPoint p = smooth[i], q = smooth[(i + 1) % smooth.Count];
            area += p.X * q.Y - q.X * p.Y;
        }
        return new EdgeLine(EvenSteps(smooth), area > 0);
    }

    /// <summary>The piece of edge about one point.</summary>
    /// <param name="index">Of the point.</param>
    /// <param name="halfLengthPx">How far along the edge its pixels reach.</param>
    /// <param name="innerReachPx">How far into the steel.</param>
    public EdgePlace PlaceAt(int index, double halfLengthPx, double innerReachPx)
    {
        (PixelPoint at, Vector2 along, double bend) = Quadratic(_points, index, FitPoints);
        Vector2 left = along.Perpendicular;
        return SteelOnLeft ? new(at, -1 * left, bend, halfLengthPx, innerReachPx) : new(at, left, -bend, halfLengthPx, innerReachPx);
    }

    /// <summary>Least-squares quadratic over neighbours: place, unit direction, and bend per pixel (positive when the curve turns to the left).</summary>
    private static (PixelPoint At, Vector2 Along, double Bend) Quadratic(IReadOnlyList<PixelPoint> points, int index, int reach)
    {
        int from = Math.Max(0, index - reach), to = Math.Min(points.Count - 1, index + reach);
        // Near an end the window keeps its width and slides inwards.
        if (from == 0) to = Math.Min(points.Count - 1, 2 * reach);
        if (to == points.Count - 1) from = Math.Max(0, points.Count - 1 - 2 * reach);
        double m = (from + to) / 2.0, n = to - from + 1, s2 = 0, s4 = 0, x0 = 0, y0 = 0, x1 = 0, y1 = 0, x2 = 0, y2 = 0;
        for (int i = from; i <= to; i++)
        {
            double t = i - m, t2 = t * t;
            s2 += t2;
            s4 += t2 * t2;
            (x0, y0) = (x0 + points[i].X, y0 + points[i].Y);
            (x1, y1) = (x1 + t * points[i].X, y1 + t * points[i].Y);
            (x2, y2) = (x2 + t2 * points[i].X, y2 + t2 * points[i].Y);
        }
        double det = n * s4 - s2 * s2;
        double cx = (n * x2 - s2 * x0) / det, cy = (n * y2 - s2 * y0) / det, ax = (x0 - cx * s2) / n, ay = (y0 - cy * s2) / n;
        double bx = x1 / s2, by = y1 / s2, u = index - m;
        Vector2 along = new(bx + 2 * cx * u, by + 2 * cy * u);
        double speed = along.Length;
        return (new(ax + u * (bx + u * cx), ay + u * (by + u * cy)), along.Unit, along.Cross(new(2 * cx, 2 * cy)) / (speed * speed * speed));
    }

    private static ImmutableArray<PixelPoint> EvenSteps(List<PixelPoint> points)
    {
        double[] arc = new double[points.Count];
        for (int i = 1; i < points.Count; i++) arc[i] = arc[i - 1] + Math.Sqrt(Math.Pow(points[i].X - points[i - 1].X, 2) + Math.Pow(points[i].Y - points[i - 1].Y, 2));
        int count = Math.Max(2, (int)Math.Ceiling(arc[^1]) + 1);
        ImmutableArray<PixelPoint>.Builder even = ImmutableArray.CreateBuilder<PixelPoint>(count);
        for (int k = 0, i = 1; k < count; k++)
        {
            double s = arc[^1] * k / (count - 1);
            while (i < points.Count - 1 && arc[i] < s) i++;
            double t = arc[i] > arc[i - 1] ? (s - arc[i - 1]) / (arc[i] - arc[i - 1]) : 0;
            even.Add(new(points[i - 1].X + t * (points[i].X - points[i - 1].X), points[i - 1].Y + t * (points[i].Y - points[i - 1].Y)));
        }
        return even.ToImmutable();
    }
}
