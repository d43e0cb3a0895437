using System.Xml.Linq;
using EdgeLens.Geometry.Plane;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Drawing;

/// <summary>Outlines seen from above the face on a millimetre grid, the same scale both ways, apex at the left, not mirrored: the right edge is on top.</summary>
internal sealed class ProfileDrawing
{
    private const double MarginMm = 0.15;
    private readonly double _pxPerMm;
    private readonly double _leftPx;
    private readonly double _middlePx;
    private readonly double _halfMm;
    private readonly double _lengthMm;
    private readonly double _originZMm;

    /// <param name="outlines">All that must have room, blade frame: x to the left edge, z (here Y) to the apex.</param>
    /// <param name="originZMm">z of the origin of stations.</param>
    public ProfileDrawing(IEnumerable<Vector2> outlines, double originZMm)
    {
        Vector2[] all = [.. outlines];
        _originZMm = originZMm;
        double beyondMm = Math.Max(all.Max(p => p.Y) - originZMm, 0) + MarginMm;
        _lengthMm = originZMm - all.Min(p => p.Y);
        _halfMm = all.Max(p => Math.Abs(p.X)) + MarginMm;
        _pxPerMm = (PlotArea.WidthPx - 12) / (_lengthMm + beyondMm + MarginMm);
        _leftPx = 6 + beyondMm * _pxPerMm;
        _middlePx = 18 + _halfMm * _pxPerMm;
    }

    /// <summary>Screen pixels of this drawing for one millimetre of steel, at its native width.</summary>
    public double PxPerMm => _pxPerMm;

    /// <summary>A place of the blade frame in the drawing: turned by half a turn against (z, x), so the apex is at the left.</summary>
    public Vector2 At(Vector2 xz) => new(_leftPx + (_originZMm - xz.Y) * _pxPerMm, _middlePx + xz.X * _pxPerMm);

    public XElement Outline(IEnumerable<Vector2> points, string cssClass, bool isClosed = false) => El("path." + cssClass, Attr("d", PathText.Of(points.Select(At), isClosed)));

    public XElement Svg(string description, string endName, params object?[] content)
    {
        double bottom = _middlePx + _halfMm * _pxPerMm;
        return El("svg.plot", Attr("viewBox", $"0 0 {Px(PlotArea.WidthPx)} {Px(bottom + 34)}"), Attr("role", "img"), Attr("aria-label", description),
            Grid(bottom, endName), content,
            PlotArea.Words(PlotArea.WidthPx - 6, 11, "tick end", "right edge"),
            PlotArea.Words(PlotArea.WidthPx - 6, bottom + 12, "tick end halo", "left edge"));
    }

    private IEnumerable<XElement> Grid(double bottom, string endName)
    {
        for (int mm = 0; mm <= _lengthMm; mm++)
        {
            double x = _leftPx + mm * _pxPerMm;
            yield return PlotArea.Line(x, 16, x, bottom, "grid");
            if (x < PlotArea.WidthPx - 64) yield return PlotArea.Words(x, bottom + 12, "tick middle", mm.ToString(System.Globalization.CultureInfo.InvariantCulture));
        }
        for (int mm = -(int)_halfMm; mm <= _halfMm; mm++)
            yield return PlotArea.Line(6, _middlePx + mm * _pxPerMm, PlotArea.WidthPx - 6, _middlePx + mm * _pxPerMm, "grid");
        yield return PlotArea.Words(6, bottom + 28, "tick", $"mm from the {endName}; grid 1 mm");
    }
}
