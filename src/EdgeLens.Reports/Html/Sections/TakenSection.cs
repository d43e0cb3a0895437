using System.Globalization;
using System.Xml.Linq;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Wording;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>How the photographs were taken: scale, tilt, blur, light; and what was refused.</summary>
internal static class TakenSection
{
    public static XElement? Build(Inspection inspection)
    {
        if (inspection.Today is null && inspection.Baseline is null && inspection.Refusals.IsEmpty) return null;
        return El("section",
            El("h2", "How the photographs were taken"),
            inspection.Refusals.Select(Refused),
            El("div.drawings",
                inspection.Today is { } today ? Facts("Today", today) : null,
                inspection.Baseline is { } baseline ? Facts("When new", baseline) : null));
    }

    private static XElement Facts(string title, FaceMeasurement face) => El("div",
        El("h3", title),
        El("dl",
            Fact("File", UserText(face.Photograph.FileName), $", {Number(face.Photograph.WidthPx)} × {Number(face.Photograph.HeightPx)} pixels"),
            Fact("Scale", $"{FigureText.Number(face.Scale.MmPerPx * 1000, 2)} µm per pixel, ± {FigureText.Number(200 * face.Scale.RelativeStandardUncertainty, 1)} % of every length"),
            Fact("Card", $"{Number(face.Scale.CornerCount)} corners, {FigureText.Number(face.Scale.CornerResidualPx, 2)} pixels rms from their places"),
            Fact("Tilt from square", FigureText.WithUncertainty(face.Scale.TiltDeg, "°")),
            Fact("Distance", FigureText.WithUncertainty(face.Scale.DistanceMm, "mm")),
            Fact("Face over the card", FigureText.WithUncertainty(face.Scale.HeightOverCardMm, "mm")),
            Fact("Blur at the edge", FigureText.WithUncertainty(face.Quality.BlurSigmaUm, "µm"), " (one sigma)"),
            Fact("Clipped edge", $"{FigureText.Number(face.Quality.ClippedEdgePercent, 1)} %"),
            Fact("Light compared with", face.Light.ReferenceDescription)));

    private static XElement[] Fact(string name, params object[] content) => [El("dt", name), El("dd", content)];

    private static XElement Refused(InspectionRefusal refused) => El("div.refused",
        El("p", El("strong", Subject(refused.Subject)), refused.FileName is { } file ? new object[] { " ", UserText(file) } : null, ": ", refused.Refusal.Reason),
        refused.Refusal is { Figure: { } figure, Limit: { } limit }
            ? El("p", $"Measured {FigureText.Limit(figure, refused.Refusal.Unit ?? "")}, limit {FigureText.Limit(limit, refused.Refusal.Unit ?? "")}.")
            : null,
        El("p", refused.Refusal.Advice),
        El("p.remark", $"Code: {refused.Refusal.Code}"));

    private static string Subject(RefusedSubject subject) => subject switch
    {
        RefusedSubject.TodayFaceView => "Today's face view was refused",
        RefusedSubject.BaselineFaceView => "The as-new face view was refused",
        RefusedSubject.TodayAngleView => "Today's toe or side view was refused",
        RefusedSubject.BaselineAngleView => "The as-new toe or side view was refused",
        _ => "Today could not be compared with as-new",
    };

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
