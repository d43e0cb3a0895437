using System.Globalization;
using System.Xml.Linq;
using EdgeLens.Records.Book;
using EdgeLens.Records.Instruments;
using EdgeLens.Web.Capturing;
using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Web.Pages;

/// <summary>Photographs that wait for an answer of who took them: which working end, which view, or once more.</summary>
internal static class HeldPages
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/capture/held", (RequestDelegate)Show).For(Role.Nurse, Role.LeadClinician);
        app.MapPost("/capture/held", (RequestDelegate)Take).For(Role.Nurse, Role.LeadClinician);
    }

    /// <summary>A line on the first page, so that none is forgotten; null when nothing waits.</summary>
    public static XElement? Waiting(HttpContext context)
    {
        int count = Folder(context).Of(AccessCheck.CodeOf(context)).Length;
        return count == 0 ? null : El("p", El("a.button plain", Attr("href", "/capture/held"), string.Create(CultureInfo.InvariantCulture, $"{Texts.HeldWait}: {count}")));
    }

    /// <summary>A button that files a photograph under a working end.</summary>
    public static XElement Answer(HttpContext context, HeldPhotograph held, WorkingEnd end, params object?[] words) => Page.Form(context, "/capture/held",
        Hidden("id", held.Id), Hidden("instrument", end.Instrument), Hidden("end", end.End.ToString(CultureInfo.InvariantCulture)), El("button", Attr("type", "submit"), words));

    private static Task Show(HttpContext context)
    {
        HeldPhotograph[] waiting = Folder(context).Of(AccessCheck.CodeOf(context));
        string id = context.Request.Query["id"].ToString();
        HeldPhotograph[] shown = id.Length == 0 ? waiting : [.. waiting.Where(h => h.Id == id)];
        if (shown.Length == 0) return Page.Write(context, Texts.HeldWait, [El("p", Texts.NothingHeld), El("p", El("a.button", Attr("href", "/capture"), Texts.Capture))]);
        return Page.Write(context, Texts.HeldWait, shown.Select(h => One(context, h)));
    }

    private static XElement One(HttpContext context, HeldPhotograph held)
    {
        IRecordBook book = context.RequestServices.GetRequiredService<IRecordBook>();
        WorkingEnd[] offered = [.. held.Offered.Select(o => book.CurrentOf<WorkingEnd>(o.Instrument).FirstOrDefault(e => e.End == o.End)).OfType<WorkingEnd>()];
        return El("section.held",
            El("div.complaint", Attr("role", "alert"), El("h2", UserText(held.Reason)), El("p", El("strong", UserText(held.Advice))), El("p.quiet", string.Create(CultureInfo.InvariantCulture, $"{Texts.NothingIsLost} {held.TakenAt:yyyy-MM-dd HH:mm}."))),
            offered.Select(e => El("div.answer", Answer(context, held, e, held.Code == "wrong-view" ? Texts.FileAsSeen : string.Create(CultureInfo.InvariantCulture, $"{Texts.FileUnder} {CaptureForm.NameOf(e)}")))),
            El("p", El("a.button", Attr("href", "/capture?held=" + held.Id), Texts.ChooseOther)),
            El("p", El("a.button plain", Attr("href", offered.Length == 1 ? CaptureForm.AddressOf(offered[0]) : CaptureForm.ByTag), Texts.TakeAnother)),
            Page.Form(context, "/capture/held", Hidden("id", held.Id), Hidden("discard", "yes"), El("button.quiet", Attr("type", "submit"), Texts.ThrowAway)));
    }

    private static async Task Take(HttpContext context)
    {
        IFormCollection form = await context.Request.ReadFormAsync(context.RequestAborted);
        HeldFolder folder = Folder(context);
        string by = AccessCheck.CodeOf(context);
        if (folder.Find(form["id"].ToString(), by) is not { } held)
        {
            await Page.Message(context, StatusCodes.Status404NotFound, Texts.NothingHeld, Texts.NothingHeldAdvice);
            return;
        }
        if (form["discard"] == "yes")
        {
            folder.Remove(held.Id);
            await Page.Redirect(context, "/capture");
            return;
        }
        if (CapturePages.EndOf(context, form["instrument"].ToString(), form["end"].ToString()) is not { } end)
        {
            await Page.Message(context, StatusCodes.Status404NotFound, Texts.NoSuchEnd, Texts.GoBack);
            return;
        }
        // Whoever answers a wrong view says: as the picture shows it.
        CaptureJob? job = context.RequestServices.GetRequiredService<CaptureQueue>().Enter(held.Answered(end, held.Code == "wrong-view" ? null : held.View, folder.PathOf(held.Id)));
        if (job is null) await Page.Message(context, StatusCodes.Status503ServiceUnavailable, Texts.QueueFull, Texts.QueueFullAdvice);
        else await Page.Redirect(context, UploadPages.WaitingPath(job));
    }

    private static HeldFolder Folder(HttpContext context) => context.RequestServices.GetRequiredService<HeldFolder>();

    private static XElement Hidden(string name, string value) => El("input", Attr("type", "hidden"), Attr("name", name), Attr("value", value));
}
