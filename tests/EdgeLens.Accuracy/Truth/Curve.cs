using System.Collections.Immutable;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Accuracy.Truth;

/// <summary>A polyline with arc length. The bench has its own, so that an error in the program's geometry cannot hide in the comparison.</summary>
public sealed class Curve
{
    /// <param name="points">At least 3, in order.</param>
    /// <exception cref="ArgumentException">Fewer points.</exception>
    public Curve(ImmutableArray<Vector2> points)
    {
        if (points.Length < 3) throw new ArgumentException("A curve needs at least 3 points.");
        Points = points;
        double[] arcs = new double[points.Length];
        for (int i = 1; i < arcs.Length; i++) arcs[i] = arcs[i - 1] + (points[i] - points[i - 1]).Length;
        Arcs = [.. arcs];
    }

    /// <summary>In order.</summary>
    public ImmutableArray<Vector2> Points { get; }

    /// <summary>Length from the first point, for each point.</summary>
    public ImmutableArray<double> Arcs { get; }

    /// <summary>Unit direction along the curve at a point, from its second neighbours: the nearest ones feel the rounding of the coordinates.</summary>
    public Vector2 DirectionAt(int index) => (Points[Math.Min(index + 2, Points.Length - 1)] - Points[Math.Max(index - 2, 0)]).Unit;

    /// <summary>Unit direction along the curve at a place: between those of the segment's ends.</summary>
    public Vector2 DirectionAt(CurvePlace place) => ((1 - place.Share) * DirectionAt(place.Segment) + place.Share * DirectionAt(place.Segment + 1)).Unit;

    /// <summary>The place at an arc; the ends for arcs beyond them.</summary>
    public CurvePlace PlaceAt(double arc) => CurvePlace.In(Arcs, arc);

    /// <summary>Coordinates of a place.</summary>
    public Vector2 At(CurvePlace place) => Points[place.Segment] + place.Share * (Points[place.Segment + 1] - Points[place.Segment]);

    /// <summary>Arc of a place.</summary>
    public double ArcOf(CurvePlace place) => Arcs[place.Segment] + place.Share * (Arcs[place.Segment + 1] - Arcs[place.Segment]);

    /// <summary>The place of the curve that is nearest to a point.</summary>
    public CurvePlace Nearest(Vector2 p)
    {
        (CurvePlace Place, double Distance) best = (default, double.PositiveInfinity);
        for (int i = 0; i + 1 < Points.Length; i++)
        {
            Vector2 along = Points[i + 1] - Points[i], to = p - Points[i];
            double length2 = along.Dot(along), share = length2 > 0 ? Math.Clamp(to.Dot(along) / length2, 0, 1) : 0, distance = (to - share * along).Length;
            if (distance < best.Distance) best = (new(i, share), distance);
        }
        return best.Place;
    }

    /// <summary>Where a straight line meets the curve nearest to its origin, seen both ways.</summary>
    /// <param name="origin">Of the line.</param>
    /// <param name="direction">Unit vector; offsets count along it.</param>
    /// <param name="running">Only stretches of the curve that run this way count, so that the blade's other side is never taken for this one.</param>
    /// <param name="reach">Greatest offset.</param>
    /// <returns>Signed offset and place of the crossing, or null.</returns>
    public (double Offset, CurvePlace Place)? Crossing(Vector2 origin, Vector2 direction, Vector2 running, double reach)
    {
        (double Offset, CurvePlace Place)? best = null;
        for (int i = 0; i + 1 < Points.Length; i++)
        {
            Vector2 along = Points[i + 1] - Points[i], to = Points[i] - origin;
            double determinant = direction.Cross(along);
            if (determinant == 0 || along.Dot(running) <= 0) continue;
            double offset = to.Cross(along) / determinant, share = to.Cross(direction) / determinant;
            if (share is < 0 or > 1 || Math.Abs(offset) > Math.Min(reach, Math.Abs(best?.Offset ?? reach))) continue;
            best = (offset, new(i, share));
        }
        return best;
    }
}

/// <summary>A place on a polyline: which segment, and how far along it.</summary>
/// <param name="Segment">Index of its first point.</param>
/// <param name="Share">0 at its first point to 1 at its second.</param>
public readonly record struct CurvePlace(int Segment, double Share)
{
    /// <summary>Where an arc lies in a list of arcs; the ends for arcs beyond them.</summary>
    /// <param name="arcs">At least 2, not descending.</param>
    /// <param name="arc">To be found.</param>
    public static CurvePlace In(ImmutableArray<double> arcs, double arc)
    {
        int found = arcs.BinarySearch(arc), segment = Math.Clamp(found >= 0 ? found : ~found - 1, 0, arcs.Length - 2);
        double step = arcs[segment + 1] - arcs[segment];
        return new(segment, step > 0 ? Math.Clamp((arc - arcs[segment]) / step, 0, 1) : 0);
    }
}
