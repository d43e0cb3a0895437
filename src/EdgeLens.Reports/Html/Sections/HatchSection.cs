using System.Xml.Linq;
using EdgeLens.Reports.Drawing;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>The hatching that drawings use where nothing was measured, defined once for the page. (Not display:none, which would take the pattern away with it.)</summary>
internal static class HatchSection
{
    public static XElement Build() => El("svg.defs", Attr("width", 0), Attr("height", 0), Attr("aria-hidden", "true"),
        El("defs", El("pattern", Attr("id", StripChart.HatchId), Attr("width", 6), Attr("height", 6), Attr("patternUnits", "userSpaceOnUse"), Attr("patternTransform", "rotate(45)"),
            El("path", Attr("d", "M0 0V6"), Attr("stroke", "#8a8f98"), Attr("stroke-width", 1.4)))));
}
