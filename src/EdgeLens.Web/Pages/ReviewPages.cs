using System.Globalization;
using EdgeLens.PracticeReports.Content;
using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;
using EdgeLens.Reports.Html.Sections;
using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Web.Pages;

/// <summary>What waits for the lead clinician: the last inspection of each working end whose verdict asks for something and which nobody has decided on.</summary>
internal static class ReviewPages
{
    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/review", (RequestDelegate)Show).For(Role.LeadClinician);

    private static Task Show(HttpContext context)
    {
        IReadOnlyList<InspectionEntry> waiting = context.RequestServices.GetRequiredService<IRecordBook>().Undecided();
        return Page.Write(context, Texts.Review,
        [
            waiting.Count == 0 ? El("p", Texts.NothingToReview) : El("p", string.Create(CultureInfo.InvariantCulture, $"{Texts.ToDecide}: {waiting.Count}")),
            El("ul.choices", waiting.Select(i => El("li." + VerdictNames.Of(i.Verdict), El("a", Attr("href", InspectionPages.PathOf(i.Id)),
                VerdictSection.Sign(i.Verdict),
                El("span", El("strong", UserText(i.Instrument), string.Create(CultureInfo.InvariantCulture, $" {Texts.End} {i.End}")), " ", UserText(i.Headline)),
                El("span.quiet", string.Create(CultureInfo.InvariantCulture, $"{i.Day:yyyy-MM-dd}, {i.By}"))),
                El("p.links", InspectionPages.TrendLink(i.Instrument), " ", El("a", Attr("href", ComparePages.PathOf(i)), Texts.CompareDates))))),
        ]);
    }
}
