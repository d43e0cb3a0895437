using System.Globalization;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Web.Capturing;
using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Web.Pages;

/// <summary>Choose the working end, or leave it to its tag, and photograph it.</summary>
internal static class CapturePages
{
    /// <summary>Working ends on one page: more is a list that nobody scrolls, and search and cassettes narrow it.</summary>
    private const int MostShown = 60;

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/capture", (RequestDelegate)Choose).For(Role.Nurse, Role.LeadClinician);
        app.MapGet("/capture/photograph", (RequestDelegate)(context => Camera(context, null))).For(Role.Nurse, Role.LeadClinician);
        app.MapGet("/capture/offline", (RequestDelegate)Offline).For(Role.Nurse, Role.LeadClinician);
    }

    private static Task Choose(HttpContext context)
    {
        IRecordBook book = context.RequestServices.GetRequiredService<IRecordBook>();
        string query = context.Request.Query["q"].ToString().Trim(), cassette = context.Request.Query["cassette"].ToString();
        Cassette[] cassettes = [.. book.Current<Cassette>().OrderBy(c => c.Code, StringComparer.Ordinal)];
        EndInUse[] found =
        [
            .. from end in book.EndsInUse()
               where cassette.Length == 0 || end.Cassette == cassette
               where query.Length == 0 || end.End.Instrument.Contains(query, StringComparison.OrdinalIgnoreCase) || end.Description?.Contains(query, StringComparison.OrdinalIgnoreCase) == true
               select end,
        ];
        // Choosing for a photograph that waits for its working end is the same list with buttons.
        HeldPhotograph? held = context.RequestServices.GetRequiredService<HeldFolder>().Find(context.Request.Query["held"].ToString(), AccessCheck.CodeOf(context));
        string also = held is null ? "" : "held=" + held.Id + "&";
        SecurityHeaders.SetForCapture(context);
        return Page.Write(context, held is null ? Texts.ChooseEnd : Texts.WhichEnd,
        [
            held is null ? HeldPages.Waiting(context) : null,
            held is null ? CaptureForm.Phone(context) : null,
            El("form.search", Attr("method", "get"), Attr("action", "/capture"), Attr("role", "search"), held is null ? null : El("input", Attr("type", "hidden"), Attr("name", "held"), Attr("value", held.Id)), Page.Field("q", Texts.Search, Attr("type", "search"), Attr("value", query), Attr("maxlength", 40)), Page.Submit(Texts.Find)),
            cassettes.Length == 0 ? null : El("nav.chips", Attr("aria-label", Texts.Cassettes),
                El("a", Attr("href", "/capture?" + also), cassette.Length == 0 ? Attr("aria-current", "true") : null, Texts.AllCassettes),
                cassettes.Select(c => El("a", Attr("href", $"/capture?{also}cassette=" + Uri.EscapeDataString(c.Code)), c.Code == cassette ? Attr("aria-current", "true") : null, UserText(c.Name)))),
            found.Length == 0 ? El("p", Texts.NothingFound) : El("ul.choices", found.Take(MostShown).Select(e => El("li", held is null ? El("a", Attr("href", CaptureForm.AddressOf(e.End)), Described(e)) : HeldPages.Answer(context, held, e.End, Described(e))))),
            found.Length > MostShown ? El("p", string.Create(CultureInfo.InvariantCulture, $"{MostShown} / {found.Length}. {Texts.SearchForMore}")) : null,
            held is null ? El("div.thumb", El("a.button large", Attr("href", CaptureForm.ByTag), Texts.WithTag)) : null,
        ], script: held is null ? CaptureForm.Script : null);

        static object?[] Described(EndInUse e) =>
        [
            El("strong", UserText(CaptureForm.NameOf(e.End))),
            El("span", UserText(e.Description ?? FamilyTraits.Of(e.End.Family).Title)),
            El("span.quiet", e.Cassette is { } place ? UserText($"{Texts.Cassette} {place}") : Texts.NoCassette),
        ];
    }

    /// <summary>True when an address leaves the working end to the tag.</summary>
    internal static bool IsByTag(HttpContext context) => !context.Request.Query.ContainsKey("instrument");

    /// <summary>The working end that an address names; null when the book has none such.</summary>
    internal static WorkingEnd? Named(HttpContext context) => EndOf(context, context.Request.Query["instrument"].ToString(), context.Request.Query["end"].ToString());

    /// <summary>The working end of an instrument's code and a number; null when the book has none such.</summary>
    internal static WorkingEnd? EndOf(HttpContext context, string instrument, string end) => int.TryParse(end, NumberStyles.None, CultureInfo.InvariantCulture, out int number)
        ? context.RequestServices.GetRequiredService<IRecordBook>().CurrentOf<WorkingEnd>(instrument).FirstOrDefault(e => e.End == number)
        : null;

    /// <summary>The page to photograph with; after a refusal with what to change.</summary>
    internal static Task Camera(HttpContext context, Geometry.Figures.Refusal? refusal)
    {
        WorkingEnd? end = Named(context);
        if (end is null && !IsByTag(context)) return Page.Message(context, StatusCodes.Status404NotFound, Texts.NoSuchEnd, Texts.GoBack);
        if (end is not null) context.RequestServices.GetRequiredService<CaptureQueue>().Expect(end);
        InspectionEntry? before = long.TryParse(context.Request.Query["before"], NumberStyles.None, CultureInfo.InvariantCulture, out long id)
            && context.RequestServices.GetRequiredService<IRecordBook>().Find<InspectionEntry>(id) is { } found && found.Instrument == end?.Instrument && found.End == end.End ? found : null;
        System.Xml.Linq.XElement form = Page.Form(context, end is null ? CaptureForm.ByTag : CaptureForm.AddressOf(end), CaptureForm.Fields(end, before));
        form.SetAttributeValue("enctype", "multipart/form-data");
        form.SetAttributeValue("class", "capture");
        form.SetAttributeValue("data-label", CaptureForm.NameOf(end));
        SecurityHeaders.SetForCapture(context);
        return Page.Write(context, CaptureForm.NameOf(end),
        [
            refusal is null ? null : El("div.complaint", Attr("role", "alert"), El("h2", Texts.Refused), El("p", UserText(refusal.Reason)), El("p", El("strong", UserText(refusal.Advice)))),
            CaptureForm.Phone(context),
            end is null ? El("p", Texts.WhereTheTagLies) : null,
            before is null ? null : El("p", string.Create(CultureInfo.InvariantCulture, $"{Texts.BesideTheOneFrom} {before.When:yyyy-MM-dd HH:mm}.")),
            form,
            El("p", El("a", Attr("href", "/capture"), Texts.OtherEnd)),
            El("p.quiet", Texts.SharpsCaution),
        ], script: CaptureForm.Script);
    }

    /// <summary>What the phone keeps to photograph with while there is no connection: no name, no figures, only codes of working ends.</summary>
    private static Task Offline(HttpContext context)
    {
        IRecordBook book = context.RequestServices.GetRequiredService<IRecordBook>();
        SecurityHeaders.SetForCapture(context);
        return Page.Write(context, Texts.Offline,
        [
            El("p", Texts.OfflineAdvice),
            CaptureForm.Phone(context, isOffline: true),
            El("form.capture", Attr("method", "post"), Attr("action", CaptureForm.ByTag),
                El("p.field", El("label", Attr("for", "which"), Texts.WhichEnd), El("select", Attr("id", "which"), Attr("name", "which"),
                    El("option", Attr("value", CaptureForm.ByTag), Texts.WithTag),
                    book.EndsInUse().Select(e => El("option", Attr("value", CaptureForm.AddressOf(e.End)), CaptureForm.NameOf(e.End))))),
                CaptureForm.Fields(null, null)),
            El("p", El("a.button plain", Attr("href", "/capture"), Texts.TryAgain)),
            El("p.quiet", Texts.SharpsCaution),
        ], script: CaptureForm.Script, withNavigation: false);
    }
}
