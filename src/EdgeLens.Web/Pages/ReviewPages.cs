using System.Globalization;
using EdgeLens.PracticeReports.Content;
using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;
using EdgeLens.Assessment.Decision;
using EdgeLens.Records.Instruments;
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
        InspectionEntry[] waiting = Waiting(context.RequestServices.GetRequiredService<IRecordBook>());
        return Page.Write(context, Texts.Review,
        [
            waiting.Length == 0 ? El("p", Texts.NothingToReview) : El("p", string.Create(CultureInfo.InvariantCulture, $"{Texts.ToDecide}: {waiting.Length}")),
            El("ul.choices", waiting.Select(i => El("li." + VerdictNames.Of(i.Verdict), El("a", Attr("href", InspectionPages.PathOf(i.Id)),
                VerdictSection.Sign(i.Verdict),
                El("span", El("strong", UserText(i.Instrument), string.Create(CultureInfo.InvariantCulture, $" {Texts.End} {i.End}")), " ", UserText(i.Headline)),
                El("span.quiet", string.Create(CultureInfo.InvariantCulture, $"{i.Day:yyyy-MM-dd}, {i.By}")))))),
        ]);
    }

    /// <summary>The most urgent verdict first, then the oldest.</summary>
    internal static InspectionEntry[] Waiting(IRecordBook book)
    {
        HashSet<long> decided = [.. book.Current<SignOff>().Where(s => s.Agrees is not null).Select(s => s.InspectionId)];
        HashSet<string> retired = [.. book.Current<StateChange>().GroupBy(s => s.Instrument).Select(g => g.OrderBy(s => s.Day).ThenBy(s => s.Id).Last()).Where(s => s.State == InstrumentState.Retired).Select(s => s.Instrument)];
        return
        [
            .. from end in book.Current<InspectionEntry>().GroupBy(i => (i.Instrument, i.End))
               let last = end.OrderBy(i => i.When).ThenBy(i => i.Id).Last()
               where !last.IsAsNew && last.Verdict is not (VerdictKind.Keep or VerdictKind.Retake)
               where !decided.Contains(last.Id) && !decided.Contains(last.Occasion) && !retired.Contains(last.Instrument)
               orderby last.Verdict descending, last.When, last.Id
               select last,
        ];
    }
}
