using System.Globalization;
using System.Xml.Linq;
using EdgeLens.Assessment.Studies;
using EdgeLens.Assessment.Wording;
using EdgeLens.Reports.Html.Sections;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html;

/// <summary>A gauge study as a page: what drift this practice's photographs can see.</summary>
public static class StudyReport
{
    /// <summary>The page; the same text for the same input.</summary>
    public static string ToHtml(GaugeStudy study, StudyFacts facts, ReportContext context)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(context);
        return InspectionReport.Page("EdgeLens: what our photographs can see", El("main",
            El("header",
                El("p.over", El("span", "Repeatability and reproducibility"), context.PracticeName is { } practice ? El("span", UserText(practice)) : null),
                El("h1", "What our photographs can see"),
                El("p.facts", El("span", string.Create(CultureInfo.InvariantCulture, $"{facts.PhotographCount} photographs measured")),
                    facts.Refused.IsEmpty ? null : El("span", string.Create(CultureInfo.InvariantCulture, $"{facts.Refused.Length} refused")), El("span", "limits: ", UserText(facts.PolicyName))),
                context.IsRenderedDemo ? HeadSection.Demonstration() : null),
            El("section",
                El("p.lead", "People photographed the same working ends several times. What their photographs differ by is not wear: a loss must be larger to be seen."),
                Table(["Figure", "Verdict", "Smallest change seen", "By one person", "Limit"], study.Verdicts.Select(v => new object?[]
                {
                    v.Name, Word(v.Grade), Number(v, v.SmallestChangeSeen), Number(v, v.RepeatabilityLimit), v.Limit is { } l ? FigureText.Limit(l, v.Unit) : "none",
                }))),
            study.Verdicts.Select(Section),
            study.Missing.IsEmpty ? null : El("section", El("h2", "Not judged"), El("ul", study.Missing.Select(m => El("li", $"{m.Name}: {m.Why}.")))),
            facts.Refused.IsEmpty ? null : El("section", El("h2", "Refused photographs"), El("ul", facts.Refused.Select(r => El("li", UserText(r.FileName), ": ", r.Reason)))),
            El("section.cautions", El("footer", El("span", $"EdgeLens {context.ProgramVersion}"), context.IsRenderedDemo ? El("span", "demonstration with rendered photographs") : null))));
    }

    private static XElement Section(GaugeVerdict verdict)
    {
        (GaugeAnova a, GaugeVariances v) = (verdict.Anova, verdict.Variances);
        (double low, double high) = v.RepeatabilityLimits;
        return El("section",
            El("h2", verdict.Name),
            El("p", verdict.Words),
            El("p.remark",
                string.Create(CultureInfo.InvariantCulture, $"{a.ThingCount} working ends, {a.PersonCount} people, {a.Trials} photographs each. "),
                $"Repeatability (one person): standard deviation {Number(verdict, v.RepeatabilitySd)} (95 %: {Number(verdict, low)} to {Number(verdict, high)}). ",
                $"Reproducibility (between people): {Number(verdict, v.ReproducibilitySd)}. Together {Number(verdict, v.GaugeSd)}, ",
                verdict.ObservedOverStated is { } ratio
                    ? string.Create(CultureInfo.InvariantCulture, $"{ratio:0.0} times what the program states for a single photograph ({Number(verdict, verdict.StatedSd)}).")
                    : "."),
            Table(["Source", "Sum of squares", "Degrees of freedom", "Mean square"], new[] { ("working ends", a.Things), ("people", a.People), (a.IsPooled ? "interaction (pooled with repeats)" : "interaction", a.Interaction), ("repeats", a.Repeats) }
                .Select(line => new object?[] { line.Item1, Square(line.Item2.SumOfSquares), line.Item2.DegreesOfFreedom.ToString(CultureInfo.InvariantCulture), Square(line.Item2.MeanSquare) })));
    }

    private static XElement Table(string[] heads, IEnumerable<object?[]> rows) => El("table",
        El("thead", El("tr", heads.Select(h => El("th", Attr("scope", "col"), h)))),
        El("tbody", rows.Select(r => El("tr", r.Select((cell, i) => i == 0 ? El("th", Attr("scope", "row"), cell) : El("td", cell))))));

    private static string Word(GaugeGrade grade) => grade switch { GaugeGrade.Good => "good", GaugeGrade.Fair => "fair", _ => "poor" };

    private static string Number(GaugeVerdict verdict, double value) => FigureText.WithUncertainty(new(value, 0), verdict.Unit, verdict.Unit == "mm" ? 4 : 2);

    private static string Square(double value) => value.ToString("G4", CultureInfo.InvariantCulture);
}
