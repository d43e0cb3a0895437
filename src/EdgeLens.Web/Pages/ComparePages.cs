using System.Globalization;
using System.Xml.Linq;
using EdgeLens.Assessment.Wording;
using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Review;
using EdgeLens.Web.Capturing;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Web.Pages;

/// <summary>Two days of a working end, their photographs laid over each other so that the same steel lies at the same place.</summary>
internal static class ComparePages
{
    // Pictures that are not kept are measured for: one after the other, uploads have the cores first.
    private static readonly SemaphoreSlim OneAtATime = new(1);

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/compare", (RequestDelegate)Show).ForAllStaff();
        app.MapGet("/inspections/{id:long}/registered", (RequestDelegate)(context => InspectionPages.With(context, i => Picture(context, i)))).ForAllStaff();
        EmbeddedFile.Map(app, "compare.js", "text/javascript; charset=utf-8").ForAllStaff();
    }

    /// <summary>Leads to the comparison of an inspection with the one that its verdict was made against.</summary>
    public static string PathOf(InspectionEntry now) => string.Create(CultureInfo.InvariantCulture, $"/compare?now={now.Id}");

    private static Task Show(HttpContext context)
    {
        IRecordBook book = context.RequestServices.GetRequiredService<IRecordBook>();
        if (Asked(context, "now") is not { } asked || book.Find<InspectionEntry>(asked) is not { } about) return Page.Message(context, StatusCodes.Status404NotFound, Texts.NoSuchPage, Texts.GoBack);
        InspectionEntry? asNew = AsNewInspection.Of(book, about.Instrument, about.End);
        // Of photographs that were measured again the last row: its registration is the best known.
        InspectionEntry[] days = [.. book.CurrentOf<InspectionEntry>(about.Instrument).Where(i => i.End == about.End).GroupBy(i => i.Occasion).Select(g => g.MaxBy(i => i.Id)!).OrderBy(i => i.When).ThenBy(i => i.Id)];
        string title = string.Create(CultureInfo.InvariantCulture, $"{Texts.Compare} {about.Instrument} {Texts.End} {about.End}");
        if (asNew is null || days.Length < 2) return Page.Write(context, title, [El("p", Texts.NothingToCompare), Back(about)]);
        InspectionEntry now = days.FirstOrDefault(d => d.Occasion == about.Occasion) ?? days[^1];
        InspectionEntry then = days.FirstOrDefault(d => d.Id == Asked(context, "then")) ?? days.First(d => d.Occasion == asNew.Occasion);
        SecurityHeaders.AllowOwnScript(context);
        return Page.Write(context, title,
        [
            El("form.days", Attr("method", "get"), Attr("action", "/compare"), Choice("then", Texts.Then, days, then), Choice("now", Texts.Today, days, now), Page.Submit(Texts.Compare)),
            El("div.overlay", Figure("then", then), Figure("now", now)),
            El("p.field reveal", Attr("hidden", "hidden"), El("label", Attr("for", "reveal"), Texts.Reveal), El("input", Attr("id", "reveal"), Attr("type", "range"), Attr("min", 0), Attr("max", 100), Attr("value", 50))),
            El("p.quiet", Texts.CompareKey),
            Back(now),
        ], script: "/compare.js");
    }

    private static XElement Choice(string name, string label, InspectionEntry[] days, InspectionEntry chosen) => El("p.field", El("label", Attr("for", name), label),
        El("select", Attr("id", name), Attr("name", name), days.Select(d => El("option", Attr("value", d.Id), d.Id == chosen.Id ? Attr("selected", "selected") : null, Words(d)))));

    private static XElement Figure(string name, InspectionEntry day) => El("figure." + name, El("figcaption", UserText(Words(day))),
        El("img", Attr("src", InspectionPages.PathOf(day.Id) + "/registered"), Attr("alt", $"{Texts.PictureOf} {Words(day)}. {Texts.IfNotRegistered}")));

    private static string Words(InspectionEntry day) => $"{DateText.Iso(day.Day)}, {(day.IsAsNew ? Texts.New : day.Headline)}";

    private static XElement Back(InspectionEntry day) => El("p.links", El("a", Attr("href", InspectionPages.PathOf(day.Id)), Texts.ToInspection), " ", InspectionPages.TrendLink(day.Instrument));

    private static long? Asked(HttpContext context, string name) => long.TryParse(context.Request.Query[name], NumberStyles.None, CultureInfo.InvariantCulture, out long id) ? id : null;

    private static async Task Picture(HttpContext context, InspectionEntry inspection)
    {
        IServiceProvider services = context.RequestServices;
        KeptPages pages = services.GetRequiredService<KeptPages>();
        if (AsNewInspection.Of(services.GetRequiredService<IRecordBook>(), inspection.Instrument, inspection.End) is not { } asNew)
        {
            await Page.Message(context, StatusCodes.Status404NotFound, Texts.NothingToCompare, Texts.GoBack);
            return;
        }
        byte[]? jpeg = pages.Registered(inspection.Id, asNew.Id);
        if (jpeg is null && services.GetRequiredService<ServerSettings>().Register is { } register)
        {
            await OneAtATime.WaitAsync(context.RequestAborted);
            try
            {
                RegisteredFace? made = await Task.Run(() => register(inspection), context.RequestAborted);
                if (made is not null) pages.Keep(inspection.Id, made);
                jpeg = made?.Jpeg;
            }
            finally
            {
                OneAtATime.Release();
            }
        }
        if (jpeg is null) await Page.Message(context, StatusCodes.Status404NotFound, Texts.IfNotRegistered, Texts.GoBack);
        else await InspectionPages.File(context, jpeg, "image/jpeg");
    }
}
