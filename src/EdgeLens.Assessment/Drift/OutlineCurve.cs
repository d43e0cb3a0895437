using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Drift;

/// <summary>An outline as a curve in some frame, with its noise along the arc.</summary>
internal sealed class OutlineCurve
{
    private readonly double[] _uncertaintyMm;

    private OutlineCurve(DriftPolyline line, double[] uncertaintyMm)
    {
        Line = line;
        _uncertaintyMm = uncertaintyMm;
    }

    public DriftPolyline Line { get; }

    public static OutlineCurve Of(Outline outline) => new(
        new DriftPolyline([.. outline.Points.Select(p => new Vector2(p.Position.XMm, p.Position.ZMm))]),
        [.. outline.Points.Select(p => p.StandardUncertaintyUm / 1000)]);

    public OutlineCurve Mapped(Similarity map) => new(Line.Mapped(map), _uncertaintyMm);

    /// <summary>Place at an arc length. The U runs from the left edge over the apex to the right edge: inwards is the tangent turned from z to x.</summary>
    public EdgePlace PlaceAt(double arcMm, double halfWindowMm)
    {
        Vector2 t = Line.TangentAt(arcMm, halfWindowMm);
        return new(arcMm, Line.At(arcMm), t.Perpendicular, _uncertaintyMm[Line.SegmentAt(arcMm)]);
    }

    /// <summary>The farthest reach along +z, noise averaged by a parabola, and the half width of its window.</summary>
    public (double ZMm, double ArcMm, double HalfWindowMm) Apex()
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
