using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Drift;

/// <summary>An outline as a curve in some frame, with its noise along the arc.</summary>
internal sealed class OutlineCurve
{
    private readonly double[] _uncertaintyMm;

    private OutlineCurve(Outline outline, PlaneCurve line, double[] uncertaintyMm)
    {
        (Outline, Line, _uncertaintyMm) = (outline, line, uncertaintyMm);
        (ApexZMm, ApexArcMm, ApexHalfWindowMm) = Apex();
    }

    public Outline Outline { get; }

    public PlaneCurve Line { get; }

    /// <summary>The farthest reach along +z.</summary>
    public double ApexZMm { get; }

    /// <summary>Where it is.</summary>
    public double ApexArcMm { get; }

    /// <summary>Half the arc over which it was averaged.</summary>
    public double ApexHalfWindowMm { get; }

    public static OutlineCurve Of(Outline outline) => new(
        outline, new PlaneCurve([.. outline.Points.Select(p => new Vector2(p.Position.XMm, p.Position.ZMm))]), [.. outline.Points.Select(p => p.StandardUncertaintyUm / 1000)]);

    /// <summary>Carried into another frame; the apex stays the same point, the frames differ by a degree at most.</summary>
    public OutlineCurve Mapped(Similarity map) => new(Outline with { Points = [.. Outline.Points.Select(p => Mapped(p, map))] }, Line.Mapped(map), _uncertaintyMm);

    private static OutlinePoint Mapped(OutlinePoint point, Similarity map)
    {
        Vector2 place = map.Apply(new(point.Position.XMm, point.Position.ZMm));
        return point with { Position = new(place.X, place.Y), ArcMm = map.Scale * point.ArcMm, Inward = map.Turn(point.Inward).Unit };
    }

    /// <summary>Place at an arc length. The U runs from the left edge over the apex to the right edge: inwards is the tangent turned from z to x.</summary>
    /// <remarks>
    /// The tangent needs a long base: with noise of 2 µm a base of ±0.04 mm would leave it uncertain by 3°, as much as a neck slopes, and the registration
    /// would take that for knowledge of z. Towards the apex the edge bends sharply, so the base shrinks with the distance from it.
    /// </remarks>
    public EdgePlace PlaceAt(double arcMm)
    {
        double half = Math.Clamp(0.25 * Math.Abs(arcMm - ApexArcMm), 0.04, 0.2);
        return new(arcMm, Line.At(arcMm), Line.TangentAt(arcMm, half).Perpendicular, StandardUncertaintyAt(arcMm));
    }

    /// <summary>Of the outline along its normal, mm.</summary>
    public double StandardUncertaintyAt(double arcMm) => _uncertaintyMm[Line.SegmentAt(arcMm)];

    private (double ZMm, double ArcMm, double HalfWindowMm) Apex()
    {
        var points = Line.Points;
        int top = 0;
        for (int i = 1; i < points.Length; i++) if (points[i].Y > points[top].Y) top = i;
        // Radius from the arc that lies within 50 µm of the top: s = 2 sqrt(2 R h). The parabola is true over a good third of it.
        int a = top, b = top;
        while (a > 0 && points[a].Y > points[top].Y - 0.05) a--;
        while (b < points.Length - 1 && points[b].Y > points[top].Y - 0.05) b++;
        double radius = Math.Pow(Line.Arc[b] - Line.Arc[a], 2) / 0.4;
        double half = Math.Clamp(0.4 * radius, 0.03, 0.15);
        // The highest point of a noisy line lies off the middle: centre the window on the arc that is highest as a whole.
        double arc = Line.Arc[top], z = points[top].Y;
        for (int i = 0; i < 3; i++)
        {
            if (Line.Summit(arc, half) is not { } s) break;
            (z, arc) = (s.Height, Math.Clamp(s.Arc, arc - half / 2, arc + half / 2));
        }
        return (z, arc, half);
    }
}
