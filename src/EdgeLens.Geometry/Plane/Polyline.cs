namespace EdgeLens.Geometry.Plane;

/// <summary>Measures on an open polyline in the plane; all lengths in the unit of its points.</summary>
public static class Polyline
{
    /// <summary>Length along the line from the first point to each point.</summary>
    public static double[] ArcLengths(ReadOnlySpan<Vector2> line)
    {
        double[] arc = new double[line.Length];
        for (int i = 1; i < line.Length; i++) arc[i] = arc[i - 1] + (line[i] - line[i - 1]).Length;
        return arc;
    }

    /// <summary>Points on the line at equal spacing of arc, first and last point kept (the spacing is shortened to fit).</summary>
    /// <param name="line">At least 2 points, longer than 0.</param>
    /// <param name="spacing">Greatest spacing, above 0.</param>
    public static Vector2[] Resample(ReadOnlySpan<Vector2> line, double spacing)
    {
        if (line.Length < 2) throw new ArgumentException("A line has at least 2 points.", nameof(line));
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(spacing);
        double[] arc = ArcLengths(line);
        int count = Math.Max(2, (int)Math.Ceiling(arc[^1] / spacing) + 1);
        Vector2[] points = new Vector2[count];
        for (int k = 0, i = 1; k < count; k++)
        {
            double s = arc[^1] * k / (count - 1);
            while (i < line.Length - 1 && arc[i] < s) i++;
            double run = arc[i] - arc[i - 1];
            points[k] = run > 0 ? line[i - 1] + (s - arc[i - 1]) / run * (line[i] - line[i - 1]) : line[i];
        }
        return points;
    }

    /// <summary>Area enclosed when the last point is joined to the first; positive when the line turns from x towards y (Gauss's trapezium formula).</summary>
    public static double SignedArea(ReadOnlySpan<Vector2> line)
    {
        double twice = 0;
        // About the first point, so that a far origin costs no digits.
        for (int i = 1; i + 1 < line.Length; i++) twice += (line[i] - line[0]).Cross(line[i + 1] - line[0]);
        return twice / 2;
    }

    /// <summary>Every place where the line crosses the height y, interpolated, in order along the line. A stretch on the very height counts once.</summary>
    public static IReadOnlyList<Crossing> CrossingsAtY(ReadOnlySpan<Vector2> line, double y)
    {
        List<Crossing> found = [];
        for (int i = 0; i + 1 < line.Length; i++)
        {
            // Half open: a vertex on the height belongs to one segment only.
            bool below = line[i].Y < y, nextBelow = line[i + 1].Y < y;
            if (below == nextBelow) continue;
            double t = (y - line[i].Y) / (line[i + 1].Y - line[i].Y);
            found.Add(new(i, t, line[i].X + t * (line[i + 1].X - line[i].X)));
        }
        return found;
    }

    /// <summary>Signed distance from a point along a direction to the nearest crossing with the line; negative against the direction.</summary>
    /// <param name="from">The point.</param>
    /// <param name="direction">Unit vector.</param>
    /// <param name="line">The other polyline.</param>
    /// <param name="reach">Crossings farther away than this are not looked at.</param>
    /// <returns>The distance, or null when the line is not met within reach.</returns>
    public static double? DistanceAlong(Vector2 from, Vector2 direction, ReadOnlySpan<Vector2> line, double reach)
    {
        double? nearest = null;
        for (int i = 0; i + 1 < line.Length; i++)
        {
            // from + t d = p + u e, solved with cross products; both ends of the segment belong to it.
            Vector2 e = line[i + 1] - line[i], w = line[i] - from;
            double den = direction.Cross(e);
            if (den == 0) continue;
            double t = w.Cross(e) / den, u = w.Cross(direction) / den;
            if (u < 0 || u > 1 || Math.Abs(t) > reach) continue;
            if (nearest is not { } n || Math.Abs(t) < Math.Abs(n)) nearest = t;
        }
        return nearest;
    }

    /// <summary>Normal distance from a point to the nearest place of the line, always positive.</summary>
    public static double DistanceTo(Vector2 from, ReadOnlySpan<Vector2> line)
    {
        if (line.Length == 0) throw new ArgumentException("An empty line is nowhere.", nameof(line));
        double least = (line[0] - from).Length;
        for (int i = 0; i + 1 < line.Length; i++)
        {
            Vector2 e = line[i + 1] - line[i], w = from - line[i];
            double square = e.Dot(e), t = square > 0 ? Math.Clamp(w.Dot(e) / square, 0, 1) : 0;
            least = Math.Min(least, (w - t * e).Length);
        }
        return least;
    }
}

/// <summary>Where a polyline crosses a line of constant y.</summary>
/// <param name="Segment">Index of the point before the crossing.</param>
/// <param name="Fraction">0 to 1 along that segment.</param>
/// <param name="X">Place of the crossing.</param>
public readonly record struct Crossing(int Segment, double Fraction, double X);
