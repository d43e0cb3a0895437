using System.Globalization;
using EdgeLens.PracticeReports.Reports;
using EdgeLens.Records.Review;
using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Web.Pages;

/// <summary>One page for the manager: what to retire, resharpen and order, and what it costs; the whole practice review as a report.</summary>
internal static class PracticePages
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/practice", (RequestDelegate)Show).For(Role.LeadClinician, Role.Manager);
        app.MapGet("/practice/report", (RequestDelegate)(context => InspectionPages.Written(context, ReviewReport.OfPractice(Source(context), Review(context))))).For(Role.LeadClinician, Role.Manager);
        app.MapGet("/practice/work-list", (RequestDelegate)(context => InspectionPages.Written(context, WorkListReport.Build(Source(context), Review(context))))).ForAllStaff();
    }

    /// <summary>What reports are made from, today.</summary>
    public static ReportSource Source(HttpContext context) => context.RequestServices.GetRequiredService<PracticeDesk>().Source;

    private static PracticeReview Review(HttpContext context) => context.RequestServices.GetRequiredService<PracticeDesk>().Review();

    private static Task Show(HttpContext context)
    {
        PracticeReview review = Review(context);
        string? currency = review.File.Practice?.Currency;
        return Page.Write(context, review.File.Practice?.Name ?? Texts.Practice,
        [
            El("p.links", El("a", Attr("href", "/practice/report"), Texts.PracticeReport), " ", El("a", Attr("href", "/practice/work-list"), Texts.WorkList)),
            El("p", El("strong", string.Create(CultureInfo.InvariantCulture, $"{Texts.ToOrder}: {review.KnownCost:0.00} {currency}")), review.PricesMissing > 0 ? string.Create(CultureInfo.InvariantCulture, $" ({Texts.PricesMissing}: {review.PricesMissing})") : null),
            review.Items.Where(i => i.Action != PlanAction.Keep).GroupBy(i => i.Action).Select(group => El("section",
                El("h2", string.Create(CultureInfo.InvariantCulture, $"{Texts.Of(group.Key)} ({group.Count()})")),
                El("ul.choices", group.Select(i => El("li", El("a", Attr("href", "/instrument?code=" + Uri.EscapeDataString(i.File.Instrument.Code)),
                    El("strong", UserText(i.File.Name)), El("span", UserText(i.Reasons.FirstOrDefault() ?? "")),
                    El("span.quiet", i.DueBy is { } due ? string.Create(CultureInfo.InvariantCulture, $"{Texts.By} {due:yyyy-MM-dd}") : Texts.Now, i.Cost is { } cost ? string.Create(CultureInfo.InvariantCulture, $", {cost:0.00} {currency}") : null))))))),
            review.Stones.IsEmpty ? null : El("section", El("h2", Texts.Stones), El("ul", review.Stones.Select(s => El("li", UserText(s))))),
        ]);
    }
}
