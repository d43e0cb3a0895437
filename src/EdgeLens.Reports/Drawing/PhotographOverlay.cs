using System.Globalization;
using System.Xml.Linq;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Drawing;

/// <summary>What is drawn over the photograph: outline in bands, outline when new, names of the edges, numbered places, a millimetre.</summary>
/// <remarks>Lengths that are not the picture's own are in hundredths of its width, so that they look alike for crops of any size.</remarks>
internal sealed class PhotographOverlay
{
    private const double MarkerRadius = 2.1;
    private const double MarkerDistance = 6.5;
    private const double NameDistance = 3.6;
    private const double BandDistance = 0.9;

    private readonly ReportPhotograph _photograph;
    private readonly Vector2[] _outline;
    private readonly Vector2 _middle;
    private readonly double _unit;

    public PhotographOverlay(ReportPhotograph photograph)
    {
        _photograph = photograph;
        _unit = photograph.WidthPx / 100.0;
        _outline = [.. photograph.OutlinePx.Select(PathText.FromPixelCentres)];
        _middle = _outline.Length == 0 ? new() : new(_outline.Average(p => p.X), _outline.Average(p => p.Y));
    }

    /// <summary>A part that does not cut has its outline and nothing beside it.</summary>
    public static string ClassOf(Band band) => band == Band.Plain ? "outline" : "band " + band.ToString().ToLowerInvariant();

    public IEnumerable<XElement> Draw(EdgeBands bands, IReadOnlyList<Callout> callouts, Outline outline, IReadOnlyList<(int Index, string Name)> names)
    {
        yield return El("path.outline", Attr("d", PathText.Of(_outline)));
        // Beside the edge and not on it: the line of light is what the reader wants to see.
        Vector2[] beside = [.. _outline.Select((p, i) => p + BandDistance * _unit * OutwardAt(i))];
        foreach ((int from, int to) in Runs(bands).Where(r => bands.AtPoint[r.From] != Band.Plain))
            yield return El("path." + ClassOf(bands.AtPoint[from]), Attr("d", PathText.Of(beside[from..Math.Min(to + 1, beside.Length)])));

        if (!_photograph.BaselineOutlinePx.IsEmpty)
            yield return El("path.as-new-over", Attr("d", PathText.Of(_photograph.BaselineOutlinePx.Select(PathText.FromPixelCentres))));

        (Vector2 left, Vector2 right) = ScaleBarEnds();
        List<Vector2> taken = [left, 0.5 * (left + right), right];
        foreach (XElement marker in callouts.SelectMany((c, i) => Marker(c, i + 1, taken))) yield return marker;
        foreach ((int index, string name) in names) yield return Name(index, name, taken);
    }

    public IEnumerable<XElement> ScaleBar()
    {
        if (_photograph.MmPerPx is null) yield break;
        (Vector2 left, Vector2 right) = ScaleBarEnds();
        string d = $"M{Px(left.X)} {Px(left.Y)}H{Px(right.X)}";
        yield return El("path.casing", Attr("d", d));
        yield return El("path.scale-bar", Attr("d", d));
        yield return El("text.on-picture end", Attr("x", right.X), Attr("y", right.Y - 1.2 * _unit), "1 mm");
    }

    /// <summary>In the corner that is farthest from the blade.</summary>
    private (Vector2 Left, Vector2 Right) ScaleBarEnds()
    {
        double length = 1 / (_photograph.MmPerPx ?? double.PositiveInfinity), margin = 2 * _unit, top = 5 * _unit, bottom = _photograph.HeightPx - margin;
        double atRight = Math.Max(_photograph.WidthPx - margin - length, margin);
        Vector2[] corners = [new(atRight, bottom), new(margin, bottom), new(atRight, top), new(margin, top)];
        Vector2 left = _outline.Length == 0 ? corners[0] : corners.MaxBy(c => _outline.Min(p => (p - c - new Vector2(length / 2, 0)).Length));
        return (left, left + new Vector2(length, 0));
    }

    private static IEnumerable<(int From, int To)> Runs(EdgeBands bands)
    {
        for (int from = 0; from < bands.AtPoint.Length;)
        {
            int to = from + 1;
            while (to < bands.AtPoint.Length && bands.AtPoint[to] == bands.AtPoint[from]) to++;
            yield return (from, to);
            from = to;
        }
    }

    private IEnumerable<XElement> Marker(Callout callout, int number, List<Vector2> taken)
    {
        Vector2 foot = _outline[callout.PointIndex];
        Vector2 centre = FreePlace(foot, OutwardAt(callout.PointIndex), taken);
        taken.Add(centre);
        yield return El("path.leader", Attr("d", PathText.Of([foot, centre])));
        yield return El("circle.marker", Attr("cx", centre.X), Attr("cy", centre.Y), Attr("r", MarkerRadius * _unit));
        yield return El("text.marker-number", Attr("x", centre.X), Attr("y", centre.Y), number.ToString(CultureInfo.InvariantCulture));
    }

    private XElement Name(int index, string name, List<Vector2> taken)
    {
        Vector2 outward = OutwardAt(index);
        Vector2 place = Inside(_outline[index] + NameDistance * _unit * outward, 5);
        // A number may sit there already: the name then moves along the edge, towards the heel, where nothing is marked.
        for (int tries = 0; tries < 8 && taken.Any(t => Math.Abs(t.X - place.X) < 12 * _unit && Math.Abs(t.Y - place.Y) < 4.5 * _unit); tries++)
            place = Inside(place + 2.5 * _unit * outward.Perpendicular, 5);
        taken.Add(place);
        string anchor = outward.X > 0.5 ? "" : outward.X < -0.5 ? " end" : " middle";
        return El("text.on-picture" + anchor, Attr("x", place.X), Attr("y", place.Y + 0.7 * _unit), name);
    }

    /// <summary>Tries the outward direction and then ever more turned ones, near before far, until no other number is in the way.</summary>
    private Vector2 FreePlace(Vector2 foot, Vector2 outward, List<Vector2> taken)
    {
        foreach (double distance in new[] { 1, 1.5, 2 })
            foreach (double turn in new[] { 0, 0.5, -0.5, 1, -1 })
            {
                Vector2 direction = (outward + turn * outward.Perpendicular).Unit;
                Vector2 place = Inside(foot + distance * MarkerDistance * _unit * direction, MarkerRadius + 0.5);
                if ((place - foot).Length > 2 * MarkerRadius * _unit && taken.All(t => (t - place).Length > 2.6 * MarkerRadius * _unit)) return place;
            }
        return Inside(foot + MarkerDistance * _unit * outward, MarkerRadius + 0.5);
    }

    private Vector2 Inside(Vector2 p, double margin) =>
        new(Math.Clamp(p.X, margin * _unit, Math.Max(margin * _unit, _photograph.WidthPx - margin * _unit)), Math.Clamp(p.Y, 2.5 * _unit, Math.Max(2.5 * _unit, _photograph.HeightPx - 2.5 * _unit)));

    /// <summary>Across the outline, away from the steel.</summary>
    private Vector2 OutwardAt(int index)
    {
        // Over some 2 % of the outline, so that a nick does not turn it.
        int reach = Math.Max(1, _outline.Length / 50);
        Vector2 along = _outline[Math.Min(index + reach, _outline.Length - 1)] - _outline[Math.Max(index - reach, 0)];
        if (along.Length == 0) return new(0, -1);
        Vector2 across = along.Unit.Perpendicular;
        return across.Dot(_outline[index] - _middle) >= 0 ? across : -1 * across;
    }
}
