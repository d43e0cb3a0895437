using System.Collections.Immutable;
using System.Xml.Linq;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Reports.Drawing;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>Toe or side view with the lines that the angles were taken from: all of them, and the edge from near.</summary>
internal static class AngleSection
{
    public static XElement? Build(Inspection inspection, ImmutableArray<ReportAnglePhotograph> photographs, ReportContext context)
    {
        if (inspection.TodayAngles is not { } angles || photographs.IsDefaultOrEmpty) return null;
        LineRole[] roles = [.. photographs.SelectMany(p => p.Lines).Select(l => l.Role).Distinct().Order()];
        return El("section",
            El("h2", angles.View == PhotographView.Side ? "The angle, from the side" : "The angles, from the toe"),
            El("div.pair", photographs.Select((p, i) => El("figure.photograph", Picture(p, i == 0 ? "The photograph with the fitted lines." : "The edge from near with the fitted lines.")))),
            El("ul.legend", Attr("aria-label", "Legend"), roles.Select(r => El("li",
                El("svg.key dark", Attr("viewBox", "0 0 44 14"), Attr("aria-hidden", "true"), El("path." + ClassOf(r), Attr("d", "M3 7H41"))), NameOf(r, angles.View)))),
            context.IsRenderedDemo ? El("p.remark", "Rendered, not photographed.") : null);
    }

    private static XElement Picture(ReportAnglePhotograph photograph, string description) => El("svg.picture",
        Attr("viewBox", $"0 0 {photograph.WidthPx} {photograph.HeightPx}"), Attr("style", $"--u:{Px(photograph.WidthPx / 100.0)}px"), Attr("role", "img"), Attr("aria-label", description),
        El("image", Attr("href", EmbeddedJpeg.Href(photograph.Jpeg)), Attr("width", photograph.WidthPx), Attr("height", photograph.HeightPx)),
        // Pixel centres are whole numbers; a drawing counts from the pixel's corner.
        photograph.Lines.Select(l => El("path." + ClassOf(l.Role), Attr("d", PathText.Of([new(l.From.X + 0.5, l.From.Y + 0.5), new(l.To.X + 0.5, l.To.Y + 0.5)])))));

    private static string ClassOf(LineRole role) => role switch
    {
        LineRole.ShankAxis => "fitted axis",
        LineRole.Face => "fitted face",
        LineRole.RightLateral or LineRole.SecondBevel => "fitted right",
        _ => "fitted left",
    };

    private static string NameOf(LineRole role, PhotographView view) => role switch
    {
        LineRole.ShankAxis => "axis of the terminal shank",
        LineRole.Face => view == PhotographView.Side ? "plane of the face" : "line of the face",
        LineRole.LeftLateral => "left lateral surface",
        LineRole.RightLateral => "right lateral surface",
        LineRole.SecondBevel => "second bevel",
        _ => "bevel",
    };
}
