using System.Xml.Linq;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Plane;
using EdgeLens.Reports.Drawing;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>The shape today over the shape when new at true scale, and beside it the same with the losses magnified.</summary>
internal static class ProfileSection
{
    public static XElement? Build(Inspection inspection)
    {
        if (inspection.Today is not { } today) return null;
        return El("section",
            El("h2", inspection.Drift is null ? "Its shape" : "Its shape, today against new"),
            El("div.drawings", inspection is { Baseline: { } baseline, Drift: { } drift } ? Compared(inspection, today, baseline, drift) : [Alone(inspection, today)]));
    }

    private static XElement Alone(Inspection inspection, FaceMeasurement today)
    {
        string end = PlaceText.EndOf(inspection.Family);
        Vector2[] outline = [.. today.Outline.Points.Select(Place)];
        ProfileDrawing drawing = new(outline, today.StationOriginZMm);
        return El("figure", drawing.Svg("Outline of the working end today on a millimetre grid.", end, drawing.Outline(outline, "today-fill", true), drawing.Outline(outline, "today")),
            El("figcaption", El("strong", "True shape."), " The same scale both ways. There is no as-new outline to compare with."));
    }

    private static XElement[] Compared(Inspection inspection, FaceMeasurement today, FaceMeasurement baseline, DriftMeasurement drift)
    {
        string end = PlaceText.EndOf(inspection.Family);
        Vector2[] asNew = [.. baseline.Outline.Points.Select(Place)];
        Vector2[] now = [.. today.Outline.Points.Select(p => drift.BaselineFromToday.Apply(Place(p)))];
        ProfileDrawing drawing = new([.. asNew, .. now], baseline.StationOriginZMm);
        double magnification = Magnification(drift, baseline.Outline);
        // Between the first and the last place where a loss was measured: beyond them nothing is known to be lost.
        EdgeLossSample[] measured = [.. drift.EdgeLoss.Where(s => s.LossUm.Measured is not null)];
        Vector2[] before = [.. measured.Select(s => OutlinePlaces.Landing(baseline.Outline, s, 0))], magnified = [.. measured.Select(s => OutlinePlaces.Landing(baseline.Outline, s, magnification))];
        string times = FormattableString.Invariant($"{magnification}");
        return
        [
            El("figure", drawing.Svg("Outline today over the outline when new, at true scale on a millimetre grid.", end,
                    drawing.Outline(asNew, "as-new-fill", true), drawing.Outline(now, "today-fill", true), drawing.Outline(asNew, "as-new"), drawing.Outline(now, "today")),
                El("figcaption", El("strong", "True shape."), " The same scale both ways. ", Keys("today"))),
            El("figure", drawing.Svg($"Outline when new with the losses drawn {times} times larger.", end,
                    before.Length < 2 ? null : drawing.Outline(before, "lost-fill", true), magnified.Length < 2 ? null : drawing.Outline(magnified, "today-fill", true),
                    drawing.Outline(asNew, "as-new"), magnified.Length < 2 ? null : drawing.Outline(magnified, "today")),
                El("figcaption", El("strong", magnification == 1 ? "Losses as they are." : $"Losses {times} times larger."), " Measured across the as-new edge; shaded: metal lost. ", Keys("today"))),
        ];
    }

    private static IEnumerable<XElement> Keys(string today) =>
    [
        El("span.inline-key", El("svg.key", Attr("viewBox", "0 0 44 14"), Attr("aria-hidden", "true"), El("path.as-new", Attr("d", "M3 7H41"))), "when new"),
        El("span.inline-key", El("svg.key", Attr("viewBox", "0 0 44 14"), Attr("aria-hidden", "true"), El("path." + today, Attr("d", "M3 7H41"))), "today"),
    ];

    /// <summary>
    /// As large as fits: a loss on a side may take 70 % of the half width where it lies, so that the two sides do not meet, and one round the end 70 % of
    /// the greatest half width. A pointed tip is left out: where the blade is less than half as wide as at its widest, the drawing may cross itself rather than show nothing.
    /// </summary>
    private static double Magnification(DriftMeasurement drift, Outline baseline)
    {
        double widestMm = baseline.Points.Max(p => Math.Abs(p.Position.XMm));
        double HalfMm(EdgeLossSample s) => s.Part == EdgePart.Toe ? widestMm : Math.Abs(baseline.Points[OutlinePlaces.IndexAt(baseline, s.ArcMm)].Position.XMm);
        double share = drift.EdgeLoss
            .Select(s => (LossMm: Math.Abs(s.LossUm.Measured?.Value ?? 0) / 1000, HalfMm: HalfMm(s)))
            .Where(s => s.HalfMm >= widestMm / 2).Select(s => s.LossMm / s.HalfMm).DefaultIfEmpty(0).Max();
        double[] steps = [10, 5, 4, 3, 2];
        return steps.FirstOrDefault(m => m * share <= 0.7, 1);
    }

    private static Vector2 Place(OutlinePoint p) => new(p.Position.XMm, p.Position.ZMm);
}
