using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;
using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Sharpening;
using EdgeLens.Reports.Html.Sections;
using EdgeLens.Web.Capturing;
using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Web.Pages;

/// <summary>What an inspection's page says to who has just taken the photograph: where it was filed, before and after, angles, and what to press next.</summary>
internal static partial class ResultSections
{
    /// <summary>Which end the tag filed it under; null when no tag did.</summary>
    public static XElement? FiledBy(HttpContext context, InspectionEntry inspection)
    {
        // The address says it; the book must say the same, so that nobody can be led astray by a link.
        bool isTag = int.TryParse(context.Request.Query["tag"], NumberStyles.None, CultureInfo.InvariantCulture, out int number)
            && context.RequestServices.GetRequiredService<IRecordBook>().CurrentOf<EndTag>(inspection.Instrument).Any(t => t.Number == number && t.End == inspection.End);
        return isTag ? El("p.filed", Attr("role", "status"), string.Create(CultureInfo.InvariantCulture, $"{Texts.FiledByTag} {number}: "), El("strong", UserText(string.Create(CultureInfo.InvariantCulture, $"{inspection.Instrument} {Texts.End} {inspection.End}"))), ".") : null;
    }

    /// <summary>Between the verdict and the links.</summary>
    public static IEnumerable<object?> Below(HttpContext context, InspectionEntry inspection)
    {
        if (inspection.Moment is { } moment) yield return El("p.quiet", $"{Texts.When}: {Texts.Of(moment)}");
        yield return BeforeAndAfter(context, inspection);
        yield return Angles(context.RequestServices.GetRequiredService<IRecordBook>(), inspection);
    }

    /// <summary>Caution, then the buttons in reach of the thumb.</summary>
    public static IEnumerable<object?> Next(HttpContext context, InspectionEntry inspection)
    {
        yield return El("section.cautions", El("h2", Texts.BeforeYouAct), El("ul", CautionSection.Cautions.Select(c => El("li", c))));
        if (AccessCheck.RoleOf(context) == Role.Manager) yield break;
        string again = string.Create(CultureInfo.InvariantCulture, $"/capture/photograph?instrument={Uri.EscapeDataString(inspection.Instrument)}&end={inspection.End}");
        bool isToSharpen = !inspection.IsAsNew && inspection.Verdict is VerdictKind.TouchUp or VerdictKind.Resharpen;
        yield return El("div.thumb",
            isToSharpen ? El("a.button", Attr("href", string.Create(CultureInfo.InvariantCulture, $"{again}&before={inspection.Id}")), Texts.AfterSharpening) : null,
            El("div.pair", El("a.button plain", Attr("href", again), Texts.PhotographAgain), El("a.button" + (isToSharpen ? " plain" : ""), Attr("href", "/capture"), Texts.NextInstrument)));
    }

    private static XElement? BeforeAndAfter(HttpContext context, InspectionEntry inspection)
    {
        IRecordBook book = context.RequestServices.GetRequiredService<IRecordBook>();
        HashSet<long> versions = [.. Versions(book, inspection)];
        // A toe view that was added later made a new row of the inspection: the pair names the one before it.
        SharpeningPair? pair = book.Current<SharpeningPair>().LastOrDefault(p => versions.Contains(p.InspectionId));
        if (pair is null) return inspection.Moment == InspectionMoment.AfterSharpening ? El("p", Texts.NoBefore) : null;
        InspectionEntry? before = book.Find<InspectionEntry>(pair.BeforeInspectionId);
        string[] lines = (context.RequestServices.GetRequiredService<KeptPages>().Sharpening(pair.InspectionId) ?? "").Split('\n', StringSplitOptions.RemoveEmptyEntries);
        return El("section.sharpened", El("h2", Texts.WhatSharpeningDid),
            El("div.pair", Side(before, Texts.Before), Side(inspection, Texts.After)),
            // The first line names the working end, which the page's heading does.
            lines.Length > 1 ? El("ul.lines", lines.Skip(1).Select(l => El(l.EndsWith(" µm", StringComparison.Ordinal) || l.EndsWith(" °", StringComparison.Ordinal) ? "li.more" : "li", UserText(Gap().Replace(l.Trim(), ": "))))) : El("p", Texts.NotCompared));
    }

    /// <summary>What sets name and figure apart on a console.</summary>
    [GeneratedRegex(" {2,}")]
    private static partial Regex Gap();

    private static XElement? Side(InspectionEntry? inspection, string words) => inspection is null ? null : El("figure.picture",
        El("a", Attr("href", InspectionPages.PathOf(inspection.Id)), El("img", Attr("src", InspectionPages.PathOf(inspection.Id) + "/picture"), Attr("alt", $"{words}: {inspection.Headline}"))),
        El("figcaption", El("strong", words), string.Create(CultureInfo.InvariantCulture, $" {inspection.When:yyyy-MM-dd HH:mm}")));

    private static IEnumerable<long> Versions(IRecordBook book, InspectionEntry inspection)
    {
        for (InspectionEntry? row = inspection; row is not null; row = row.Corrects is { } old ? book.Find<InspectionEntry>(old) : null) yield return row.Id;
    }

    /// <summary>Angles of a toe or side view, and what they are off from new.</summary>
    private static XElement? Angles(IRecordBook book, InspectionEntry inspection)
    {
        if (book.Document(inspection.Id)?.ReadJson() is not { } text) return null;
        using JsonDocument json = JsonDocument.Parse(text);
        if (!json.RootElement.TryGetProperty("todayAngles", out JsonElement today) || today.ValueKind != JsonValueKind.Object) return null;
        JsonElement drift = json.RootElement.GetProperty("angleDrift");
        XElement[] rows =
        [
            .. from angle in ((string Name, string Words)[])[("faceAngleDeg", Texts.FaceAngle), ("internalAngleLeftDeg", Texts.InternalLeft), ("internalAngleRightDeg", Texts.InternalRight), ("wedgeAngleDeg", Texts.WedgeAngle)]
               let value = Figure(today, angle.Name)
               where value is not null
               select El("tr", El("th", Attr("scope", "row"), angle.Words), El("td", value), El("td", drift.ValueKind == JsonValueKind.Object ? Figure(drift, angle.Name) ?? Texts.NotKnown : Texts.NotKnown)),
        ];
        return rows.Length == 0 ? null : El("section", El("h2", Texts.Angles), El("table.figures", El("tr", El("th", ""), El("th", Attr("scope", "col"), Texts.Today), El("th", Attr("scope", "col"), Texts.SinceNew)), rows), El("p.quiet", Texts.Expanded));
    }

    private static string? Figure(JsonElement of, string name) => of.TryGetProperty(name, out JsonElement figure) && figure.ValueKind == JsonValueKind.Object
        ? FigureText.WithUncertainty(new Measured(figure.GetProperty("value").GetDouble(), figure.GetProperty("standardUncertainty").GetDouble()), "°") : null;
}
