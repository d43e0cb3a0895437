using System.Globalization;
using System.Xml.Linq;
using EdgeLens.PracticeReports.Content;
using EdgeLens.PracticeReports.Html;
using EdgeLens.PracticeReports.Reports;
using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;
using EdgeLens.Reports.Html.Sections;
using EdgeLens.Web.Capturing;
using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Web.Pages;

/// <summary>One inspection: verdict in words, the photograph with the edge drawn, reports, and the clinician's decision.</summary>
internal static class InspectionPages
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/inspections/{id:long}", (RequestDelegate)(context => With(context, i => Show(context, i, null)))).ForAllStaff();
        app.MapGet("/inspections/{id:long}/picture", (RequestDelegate)(context => With(context, i => Picture(context, i)))).ForAllStaff();
        app.MapGet("/inspections/{id:long}/report", (RequestDelegate)(context => With(context, i => Report(context, i)))).ForAllStaff();
        app.MapPost("/inspections/{id:long}/decision", (RequestDelegate)(context => With(context, i => Decide(context, i)))).For(Role.LeadClinician);
        app.MapGet("/instrument", (RequestDelegate)Instrument).ForAllStaff();
    }

    public static string PathOf(long id) => "/inspections/" + id.ToString(CultureInfo.InvariantCulture);

    /// <summary>Drift and trend of an instrument, as a report.</summary>
    public static XElement TrendLink(string instrument) => El("a", Attr("href", "/instrument?code=" + Uri.EscapeDataString(instrument)), Texts.DriftAndTrend);

    /// <summary>Does something with the inspection that the address names.</summary>
    public static Task With(HttpContext context, Func<InspectionEntry, Task> action)
    {
        long id = long.Parse((string)context.Request.RouteValues["id"]!, CultureInfo.InvariantCulture);
        return context.RequestServices.GetRequiredService<IRecordBook>().Find<InspectionEntry>(id) is { } found
            ? action(found) : Page.Message(context, StatusCodes.Status404NotFound, Texts.NoSuchPage, Texts.GoBack);
    }

    private static Task Show(HttpContext context, InspectionEntry inspection, string? complaint)
    {
        SignOff? decision = context.RequestServices.GetRequiredService<DecisionDesk>().On(inspection);
        string name = string.Create(CultureInfo.InvariantCulture, $"{inspection.Instrument} {Texts.End} {inspection.End}, {inspection.Day:yyyy-MM-dd}");
        return Page.Write(context, name,
        [
            complaint is null ? null : El("p.complaint", Attr("role", "alert"), complaint),
            ResultSections.FiledBy(context, inspection),
            El("section.verdict " + VerdictNames.Of(inspection.Verdict),
                El("h2", VerdictSection.Sign(inspection.Verdict), El("span", UserText(inspection.Headline))),
                El("p.picture", El("img", Attr("src", PathOf(inspection.Id) + "/picture"), Attr("alt", $"{Texts.PictureOf} {name}: {inspection.Headline}"))),
                El("p.quiet", Texts.PictureKey),
                El("ol", Lines(inspection.NextSteps)),
                El("h3", Texts.Why), El("ul", Lines(inspection.Reasons))),
            inspection.Origin == FigureOrigin.Photographs ? null : El("p.note", Texts.Demonstration),
            inspection.Note is null ? null : El("p", Texts.Note + ": ", UserText(inspection.Note)),
            ResultSections.Below(context, inspection),
            El("p.links",
                El("a", Attr("href", PathOf(inspection.Id) + "/report"), Texts.WholeReport), " ",
                TrendLink(inspection.Instrument), " ",
                El("a", Attr("href", ComparePages.PathOf(inspection)), Texts.CompareDates)),
            decision is null ? El("p", Texts.Undecided) : El("p.decision", El("strong", decision.Agrees == true ? Texts.SignedOff : Texts.SentBack), string.Create(CultureInfo.InvariantCulture, $" {decision.By}, {decision.EnteredAt:yyyy-MM-dd HH:mm} UTC"), decision.Comment is null ? null : ": ", decision.Comment is null ? null : UserText(decision.Comment)),
            decision is null && AccessCheck.RoleOf(context) == Role.LeadClinician ? Decision(context, inspection) : null,
            ResultSections.Next(context, inspection),
        ]);
    }

    private static IEnumerable<XElement> Lines(string text) => text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => El("li", UserText(l)));

    private static XElement Decision(HttpContext context, InspectionEntry inspection) => El("section", El("h2", Texts.YourDecision), Page.Form(context, PathOf(inspection.Id) + "/decision",
        El("p.field", El("label", Attr("for", "comment"), Texts.Comment), El("textarea", Attr("id", "comment"), Attr("name", "comment"), Attr("rows", 3), Attr("maxlength", DecisionDesk.LongestComment))),
        El("div.pair", El("button.button", Attr("type", "submit"), Attr("name", "decision"), Attr("value", "agree"), Texts.SignOff), El("button.button plain", Attr("type", "submit"), Attr("name", "decision"), Attr("value", "back"), Texts.SendBack))));

    private static async Task Decide(HttpContext context, InspectionEntry inspection)
    {
        IFormCollection form = await context.Request.ReadFormAsync(context.RequestAborted);
        string comment = form["comment"].ToString().Trim(), decision = form["decision"].ToString();
        string? complaint = decision is not ("agree" or "back") || comment.Length > DecisionDesk.LongestComment ? Texts.FormExpiredAdvice
            : decision == "back" && comment.Length == 0 ? Texts.SayWhy
            : context.RequestServices.GetRequiredService<DecisionDesk>().Decide(inspection, AccessCheck.CodeOf(context), decision == "agree", comment.Length == 0 ? null : comment, RateLimits.AddressOf(context)) ? null : Texts.DecidedAlready;
        if (complaint is null)
        {
            await Page.Redirect(context, "/review");
            return;
        }
        context.Response.StatusCode = StatusCodes.Status400BadRequest;
        await Show(context, inspection, complaint);
    }

    private static Task Picture(HttpContext context, InspectionEntry inspection)
    {
        if (context.RequestServices.GetRequiredService<KeptPages>().Picture(inspection.Id) is { } svg) return File(context, svg, "image/svg+xml; charset=utf-8");
        byte[]? jpeg = context.RequestServices.GetRequiredService<IRecordBook>().Document(inspection.Id)?.PictureJpeg;
        return jpeg is { Length: > 0 } ? File(context, jpeg, "image/jpeg") : Page.Message(context, StatusCodes.Status404NotFound, Texts.NoPicture, Texts.GoBack);
    }

    private static Task Report(HttpContext context, InspectionEntry inspection) => context.RequestServices.GetRequiredService<KeptPages>().Report(inspection.Id) is { } html
        ? File(context, html, "text/html; charset=utf-8")
        : Written(context, InstrumentReport.Build(PracticePages.Source(context), inspection.Instrument));

    private static Task Instrument(HttpContext context) => Written(context, InstrumentReport.Build(PracticePages.Source(context), context.Request.Query["code"].ToString()));

    /// <summary>Answers with a practice report.</summary>
    public static Task Written(HttpContext context, PracticeReport report) => File(context, System.Text.Encoding.UTF8.GetBytes(HtmlReport.Write(report)), "text/html; charset=utf-8");

    /// <summary>Answers with a report or a picture.</summary>
    public static async Task File(HttpContext context, byte[] bytes, string type)
    {
        SecurityHeaders.SetForReport(context);
        context.Response.ContentType = type;
        context.Response.ContentLength = bytes.Length;
        await context.Response.Body.WriteAsync(bytes, context.RequestAborted);
    }
}
