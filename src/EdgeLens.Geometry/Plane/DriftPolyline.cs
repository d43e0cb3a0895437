using System.Collections.Immutable;

namespace EdgeLens.Geometry.Plane;

/// <summary>An open line of straight segments with its arc length.</summary>
public sealed class DriftPolyline
{
    private readonly double[] _arc;

    /// <param name="points">At least 2, finite, no two neighbours equal; any one unit.</param>
    /// <exception cref="ArgumentException">Fewer than two points, or neighbours that coincide.</exception>
    public DriftPolyline(ImmutableArray<Vector2> points)
    {
        if (points.IsDefault || points.Length < 2) throw new ArgumentException("A polyline needs two points.", nameof(points));
        Points = points;
        _arc = new double[points.Length];
        for (int i = 1; i < points.Length; i++)
        {
            double step = (points[i] - points[i - 1]).Length;
            if (!(step > 0)) throw new ArgumentException($"Points {i - 1} and {i} coincide or are not finite.", nameof(points));
            _arc[i] = _arc[i - 1] + step;
        }
    }

    /// <summary>The corners, in order.</summary>
    public ImmutableArray<Vector2> Points { get; }

    /// <summary>Arc length of each corner from the first.</summary>
    public ReadOnlySpan<double> Arc => _arc;

    /// <summary>Length from end to end.</summary>
    public double Length => _arc[^1];

    /// <summary>The place at an arc length; the ends beyond them.</summary>
    public Vector2 At(double arc)
    {
        int i = SegmentAt(arc);
        double u = Math.Clamp((arc - _arc[i]) / (_arc[i + 1] - _arc[i]), 0, 1);
        return Points[i] + u * (Points[i + 1] - Points[i]);
    }

    /// <summary>The line carried by a similarity.</summary>
    public DriftPolyline Mapped(Similarity map) => new([.. Points.Select(map.Apply)]);

    /// <summary>Where the straight line through <paramref name="origin"/> crosses, nearest to the origin.</summary>
    /// <param name="origin">A point of the straight line.</param>
    /// <param name="direction">Its unit direction.</param>
    /// <param name="reach">How far from the origin, both ways.</param>
    /// <returns>Signed distance along the direction and arc length of the crossing; null when nothing crosses within reach.</returns>
    public (double Distance, double Arc)? NearestCrossing(Vector2 origin, Vector2 direction, double reach)
    {
        (double Distance, double Arc)? nearest = null;
        double best = reach;
        double sideA = direction.Cross(Points[0] - origin);
        for (int i = 0; i + 1 < Points.Length; i++)
        {
            double side = sideA;
            sideA = direction.Cross(Points[i + 1] - origin);
            if (side > 0 == sideA > 0 || side == sideA) continue;
            double u = side / (side - sideA);
            double distance = direction.Dot(Points[i] + u * (Points[i + 1] - Points[i]) - origin);
            if (Math.Abs(distance) > best) continue;
            best = Math.Abs(distance);
            nearest = (distance, _arc[i] + u * (_arc[i + 1] - _arc[i]));
        }
        return nearest;
    }

    /// <summary>As <see cref="NearestCrossing"/>, with the line's noise averaged: a parabola through the corners near the crossing, read on the straight line.</summary>
    /// <param name="origin">A point of the straight line.</param>
    /// <param name="direction">Its unit direction.</param>
    /// <param name="reach">How far from the origin, both ways.</param>
    /// <param name="halfWindow">Arc length either side of the crossing that is averaged. The parabola's error on a circle of radius R is about halfWindow⁴ / (40 R³).</param>
    /// <returns>Signed distance and arc length; null when nothing crosses within reach.</returns>
    public (double Distance, double Arc)? SmoothCrossing(Vector2 origin, Vector2 direction, double reach, double halfWindow)
    {
        if (NearestCrossing(origin, direction, reach) is not { } raw) return null;
        Vector2 across = direction.Perpendicular;
        Parabola fit = new();
        for (int i = FirstAt(raw.Arc - halfWindow); i < Points.Length && _arc[i] <= raw.Arc + halfWindow; i++)
        {
            Vector2 p = Points[i] - origin;
            fit.Add(across.Dot(p) / halfWindow, direction.Dot(p) - raw.Distance);
        }
        // A line that runs along the direction has no parabola over it; the raw crossing stands.
        if (fit.Solve() is not { Value: var shift }) return raw;
        return Math.Abs(shift) <= halfWindow ? (raw.Distance + shift, raw.Arc) : raw;
    }

    /// <summary>Highest y near an arc length: the vertex of the parabola y(arc) through the corners within <paramref name="halfWindow"/>.</summary>
    /// <returns>Height and arc of the vertex; null when there are fewer than 5 corners or they do not curve downwards.</returns>
    public (double Height, double Arc)? Summit(double arc, double halfWindow)
    {
        int first = FirstAt(arc - halfWindow);
        double y0 = At(arc).Y;
        Parabola fit = new();
        for (int i = first; i < Points.Length && _arc[i] <= arc + halfWindow; i++) fit.Add((_arc[i] - arc) / halfWindow, Points[i].Y - y0);
        if (fit.Solve() is not { } c || !(c.Square < 0)) return null;
        double u = Math.Clamp(-c.Slope / (2 * c.Square), -1, 1);
        return (y0 + c.Value + u * (c.Slope + u * c.Square), arc + u * halfWindow);
    }

    /// <summary>Unit tangent in the order of the points: the principal direction of the line within <paramref name="halfWindow"/> of arc.</summary>
    public Vector2 TangentAt(double arc, double halfWindow)
    {
        Vector2 centre = At(arc);
        double xx = 0, xy = 0, yy = 0, mx = 0, my = 0, n = 0;
        void Add(Vector2 p) { n++; mx += p.X; my += p.Y; xx += p.X * p.X; xy += p.X * p.Y; yy += p.Y * p.Y; }
        Add(At(arc - halfWindow) - centre);
        Add(At(arc + halfWindow) - centre);
        for (int i = FirstAt(arc - halfWindow); i < Points.Length && _arc[i] <= arc + halfWindow; i++) Add(Points[i] - centre);
        xx -= mx * mx / n; xy -= mx * my / n; yy -= my * my / n;
        (double s, double c) = Math.SinCos(0.5 * Math.Atan2(2 * xy, xx - yy));
        Vector2 t = new(c, s);
        return t.Dot(At(arc + halfWindow) - At(arc - halfWindow)) < 0 ? -1 * t : t;
    }

    /// <summary>Index of the first corner at or beyond an arc length.</summary>
    public int FirstAt(double arc)
    {
        int i = Array.BinarySearch(_arc, arc);
        return i >= 0 ? i : ~i;
    }

    /// <summary>Index of the segment that holds an arc length.</summary>
    public int SegmentAt(double arc) => Math.Clamp(FirstAt(arc) - 1, 0, Points.Length - 2);
}
