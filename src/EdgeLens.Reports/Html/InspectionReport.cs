using System.Collections.Immutable;
using System.Xml.Linq;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Reports.Html.Sections;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html;

/// <summary>One working end on one page, to be read on a screen or phone and to be printed: a single file that asks the network for nothing.</summary>
public static class InspectionReport
{
    private static readonly Lazy<string> Style = new(ReadStyle);

    /// <summary>The page; the same text for the same input.</summary>
    /// <param name="inspection">What was found. A refused photograph gives a report too.</param>
    /// <param name="photograph">The crop to show; null for none.</param>
    /// <param name="context">What the report says about itself.</param>
    /// <param name="angles">Crops of the toe or side view; none without one.</param>
    /// <exception cref="ArgumentException">The photograph's outline does not belong to today's measurement.</exception>
    public static string ToHtml(Inspection inspection, ReportPhotograph? photograph, ReportContext context, ImmutableArray<ReportAnglePhotograph> angles = default)
    {
        if (photograph is { OutlinePx.IsEmpty: false } && inspection.Today is { } today && photograph.OutlinePx.Length != today.Outline.Points.Length)
            throw new ArgumentException($"The outline has {today.Outline.Points.Length} points, the picture shows {photograph.OutlinePx.Length}.", nameof(photograph));
        return Page($"{inspection.InstrumentId}, end {inspection.WorkingEnd}: {inspection.Verdict.Headline}", HatchSection.Build(),
            El("main",
                HeadSection.Build(inspection, context),
                VerdictSection.Build(inspection.Verdict),
                photograph is null ? null : PhotographSection.Build(inspection, photograph, context),
                AngleSection.Build(inspection, angles, context),
                PlanSection.Build(inspection),
                StoneSection.Build(inspection),
                ProfileSection.Build(inspection),
                EdgeSection.Build(inspection, photograph?.Edges ?? []),
                FigureSection.Build(inspection),
                WidthSection.Build(inspection),
                TakenSection.Build(inspection),
                context.ShowsBudgets ? BudgetSection.Build(inspection) : null,
                HistorySection.Build(context),
                CautionSection.Build(inspection, context)));
    }

    /// <summary>The report's style, for what shows a part of it alone.</summary>
    internal static string StyleText => Style.Value;

    /// <summary>A page in our style.</summary>
    internal static string Page(string title, params XElement[] body) => Write(El("html", Attr("lang", "en"),
        El("head",
            El("meta", Attr("charset", "utf-8")),
            El("meta", Attr("name", "viewport"), Attr("content", "width=device-width, initial-scale=1")),
            El("title", title),
            El("style", Style.Value)),
        El("body", body)));

    private static string ReadStyle()
    {
        using Stream stream = typeof(InspectionReport).Assembly.GetManifestResourceStream("report.css")!;
        using StreamReader reader = new(stream);
        return reader.ReadToEnd();
    }
}
