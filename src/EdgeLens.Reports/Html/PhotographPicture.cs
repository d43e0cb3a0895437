using System.Xml.Linq;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Reports.Html.Sections;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html;

/// <summary>The report's photograph with the edge drawn over it, as a picture file on its own (SVG) that asks the network for nothing.</summary>
public static class PhotographPicture
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>The file; the same text for the same input.</summary>
    /// <param name="inspection">What was found.</param>
    /// <param name="photograph">The crop, with outlines.</param>
    public static string ToSvg(Inspection inspection, ReportPhotograph photograph)
    {
        ArgumentNullException.ThrowIfNull(inspection);
        ArgumentNullException.ThrowIfNull(photograph);
        XElement picture = PhotographSection.Picture(inspection, photograph);
        // Lines and letters are styled below the class "photograph", which in a report is the figure round the picture.
        XElement group = El("g.photograph", picture.Elements().ToArray());
        picture.RemoveNodes();
        picture.Add(Attr("width", photograph.WidthPx), Attr("height", photograph.HeightPx), El("style", InspectionReport.StyleText), group);
        foreach (XElement element in picture.DescendantsAndSelf().ToArray()) element.Name = Svg + element.Name.LocalName;
        return picture.ToString(SaveOptions.DisableFormatting);
    }
}
