using System.Xml.Linq;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Wording;
using EdgeLens.Reports.Drawing;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>The photograph with the outline over it, its edges marked by what was lost (or by the light), and numbered places that are named below.</summary>
internal static class PhotographSection
{
    public static XElement Build(Inspection inspection, ReportPhotograph photograph, ReportContext context)
    {
        (EdgeBands? bands, Callout[] callouts) = Drawn(inspection, photograph);
        return El("section",
            El("h2", "The photograph"),
            El("figure.photograph",
                Picture(inspection, photograph, bands, callouts),
                El("figcaption",
                    bands is null ? "The photograph that was refused." : Legend(bands, photograph),
                    callouts.Length == 0 ? null : El("ol.places", callouts.Select(c => El("li", c.Words))),
                    context.IsRenderedDemo ? El("p.remark", "Rendered, not photographed.") : null)));
    }

    /// <summary>The picture alone, without the numbers that only a list below it explains.</summary>
    public static XElement Picture(Inspection inspection, ReportPhotograph photograph) => Picture(inspection, photograph, Drawn(inspection, photograph).Bands, []);

    private static (EdgeBands? Bands, Callout[] Callouts) Drawn(Inspection inspection, ReportPhotograph photograph) => inspection.Today is { } today && !photograph.OutlinePx.IsEmpty
        ? (EdgeBands.Of(inspection, today), [.. Callouts.Of(inspection, today)])
        : (null, []);

    private static XElement Picture(Inspection inspection, ReportPhotograph photograph, EdgeBands? bands, Callout[] callouts)
    {
        PhotographOverlay overlay = new(photograph);
        return El("svg.picture", Attr("viewBox", $"0 0 {photograph.WidthPx} {photograph.HeightPx}"), Attr("style", $"--u:{Px(photograph.WidthPx / 100.0)}px"), Attr("role", "img"),
            Attr("aria-label", Description(inspection, bands)),
            El("image", Attr("href", EmbeddedJpeg.Href(photograph.Jpeg)), Attr("width", photograph.WidthPx), Attr("height", photograph.HeightPx)),
            bands is null ? null : overlay.Draw(bands, callouts, inspection.Today!.Outline, PlaceNames(inspection, inspection.Today!)),
            overlay.ScaleBar());
    }

    /// <summary>The keys lie on the picture's own ground, so that they look as the lines do on it.</summary>
    private static XElement Legend(EdgeBands bands, ReportPhotograph photograph) => El("ul.legend", Attr("aria-label", "Legend"),
        bands.Legend.Select(b => El("li", Key(PhotographOverlay.ClassOf(b.Band)), b.Words)),
        photograph.BaselineOutlinePx.IsEmpty ? null : El("li", Key("as-new-over"), "outline when new"));

    private static XElement Key(string cssClass) => El("svg.key dark", Attr("viewBox", "0 0 44 14"), Attr("aria-hidden", "true"), El("path." + cssClass, Attr("d", "M3 7H41")));

    private static (int Index, string Name)[] PlaceNames(Inspection inspection, FaceMeasurement today)
    {
        int apex = today.Outline.ApexIndex, last = today.Outline.Points.Length - 1;
        return
        [
            ((int)(0.35 * apex), PlaceText.Name(EdgePart.Left, inspection.Family)),
            (apex, PlaceText.EndOf(inspection.Family)),
            (last - (int)(0.35 * (last - apex)), PlaceText.Name(EdgePart.Right, inspection.Family)),
        ];
    }

    private static string Description(Inspection inspection, EdgeBands? bands) => bands is null
        ? "The refused photograph."
        : $"Photograph of the working end with its outline; the cutting edges are marked by {(bands.IsLoss ? "the metal lost since it was new" : "the light that they reflect")}. {inspection.Verdict.Headline}.";
}
