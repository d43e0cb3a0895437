using System.Globalization;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Records.Book;
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

/// <summary>Choose the working end, photograph it, wait in the queue, see what came of it.</summary>
internal static class CapturePages
{
    /// <summary>Working ends on one page: more is a list that nobody scrolls, and search and cassettes narrow it.</summary>
    private const int MostShown = 60;

    /// <summary>Characters of a note.</summary>
    private const int LongestNote = 200;

    /// <summary>A page waits this long for its result before it shows the place in the queue: most results come within it.</summary>
    private static readonly TimeSpan PageWaits = TimeSpan.FromSeconds(2);

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/capture", (RequestDelegate)Choose).For(Role.Nurse, Role.LeadClinician);
        app.MapGet("/capture/photograph", (RequestDelegate)(context => Camera(context, null))).For(Role.Nurse, Role.LeadClinician);
        app.MapPost("/capture/photograph", (RequestDelegate)Upload).For(Role.Nurse, Role.LeadClinician).WithMetadata(new IncomingFolder.SizeLimit());
        app.MapGet("/capture/waiting", (RequestDelegate)Wait).For(Role.Nurse, Role.LeadClinician);
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
        return Page.Write(context, Texts.ChooseEnd,
        [
            El("form.search", Attr("method", "get"), Attr("action", "/capture"), Attr("role", "search"), Page.Field("q", Texts.Search, Attr("type", "search"), Attr("value", query), Attr("maxlength", 40)), Page.Submit(Texts.Find)),
            cassettes.Length == 0 ? null : El("nav.chips", Attr("aria-label", Texts.Cassettes),
                El("a", Attr("href", "/capture"), cassette.Length == 0 ? Attr("aria-current", "true") : null, Texts.AllCassettes),
                cassettes.Select(c => El("a", Attr("href", "/capture?cassette=" + Uri.EscapeDataString(c.Code)), c.Code == cassette ? Attr("aria-current", "true") : null, UserText(c.Name)))),
            found.Length == 0 ? El("p", Texts.NothingFound) : El("ul.choices", found.Take(MostShown).Select(e => El("li", El("a", Attr("href", CameraOf(e.End)),
                El("strong", UserText(e.End.Instrument), string.Create(CultureInfo.InvariantCulture, $" {Texts.End} {e.End.End}")),
                El("span", UserText(e.Description ?? FamilyTraits.Of(e.End.Family).Title)),
                El("span.quiet", e.Cassette is { } place ? UserText($"{Texts.Cassette} {place}") : Texts.NoCassette))))),
            found.Length > MostShown ? El("p", string.Create(CultureInfo.InvariantCulture, $"{MostShown} / {found.Length}. {Texts.SearchForMore}")) : null,
        ]);
    }

    private static string CameraOf(WorkingEnd end) => string.Create(CultureInfo.InvariantCulture, $"/capture/photograph?instrument={Uri.EscapeDataString(end.Instrument)}&end={end.End}");

    /// <summary>The working end that an address names; null when the book has none such.</summary>
    private static WorkingEnd? Named(HttpContext context) => int.TryParse(context.Request.Query["end"], NumberStyles.None, CultureInfo.InvariantCulture, out int number)
        ? context.RequestServices.GetRequiredService<IRecordBook>().CurrentOf<WorkingEnd>(context.Request.Query["instrument"].ToString()).FirstOrDefault(e => e.End == number)
        : null;

    private static Task Camera(HttpContext context, Geometry.Figures.Refusal? refusal)
    {
        if (Named(context) is not { } end) return Page.Message(context, StatusCodes.Status404NotFound, Texts.NoSuchEnd, Texts.GoBack);
        context.RequestServices.GetRequiredService<CaptureQueue>().Expect(end);
        System.Xml.Linq.XElement form = Page.Form(context, CameraOf(end),
            El("p.field camera", El("label", Attr("for", "photograph"), Texts.TakePhotograph),
                El("input", Attr("id", "photograph"), Attr("name", "photograph"), Attr("type", "file"), Attr("accept", "image/*"), Attr("capture", "environment"), Attr("required", "required"))),
            Page.Submit(Texts.Measure, "button large"),
            El("details", El("summary", Texts.More),
                Page.Field("note", Texts.Note, Attr("maxlength", LongestNote)),
                El("p.tick", El("label", El("input", Attr("type", "checkbox"), Attr("name", "asnew"), Attr("value", "yes")), " ", Texts.AsNew))));
        form.SetAttributeValue("enctype", "multipart/form-data");
        return Page.Write(context, $"{end.Instrument} {Texts.End} {end.End.ToString(CultureInfo.InvariantCulture)}",
        [
            refusal is null ? null : El("div.complaint", Attr("role", "alert"), El("h2", Texts.Refused), El("p", UserText(refusal.Reason)), El("p", El("strong", UserText(refusal.Advice)))),
            form,
            El("p", El("a", Attr("href", "/capture"), Texts.OtherEnd)),
        ]);
    }

    private static async Task Upload(HttpContext context)
    {
        if (Named(context) is not { } end)
        {
            await Page.Message(context, StatusCodes.Status404NotFound, Texts.NoSuchEnd, Texts.GoBack);
            return;
        }
        IFormCollection form = await context.Request.ReadFormAsync(context.RequestAborted);
        if (form.Files.GetFile("photograph") is not { Length: > 0 } file)
        {
            context.Response.StatusCode = StatusCodes.Status400BadRequest;
            await Camera(context, new("file-empty", Texts.NoPhotograph, Texts.NoPhotographAdvice));
            return;
        }
        string note = form["note"].ToString().Trim();
        // No page of ours sends one: its field takes no more.
        if (note.Length > LongestNote)
        {
            await Page.Message(context, StatusCodes.Status400BadRequest, Texts.TooLarge, Texts.GoBack);
            return;
        }
        DateTime now = context.RequestServices.GetRequiredService<TimeProvider>().GetLocalNow().DateTime;
        string path = await context.RequestServices.GetRequiredService<IncomingFolder>().Take(file, context.RequestAborted);
        CaptureJob? job = context.RequestServices.GetRequiredService<CaptureQueue>().Enter(new(
            end, AccessCheck.CodeOf(context), path, string.Create(CultureInfo.InvariantCulture, $"{now:yyyyMMdd-HHmmss}-{Path.GetFileName(path)[..8]}"), now, note.Length == 0 ? null : note, form["asnew"] == "yes"));
        if (job is null)
        {
            File.Delete(path);
            await Page.Message(context, StatusCodes.Status503ServiceUnavailable, Texts.QueueFull, Texts.QueueFullAdvice);
            return;
        }
        await Page.Redirect(context, $"/capture/waiting?job={job.Id}&instrument={Uri.EscapeDataString(end.Instrument)}&end={end.End.ToString(CultureInfo.InvariantCulture)}");
    }

    private static async Task Wait(HttpContext context)
    {
        CaptureQueue queue = context.RequestServices.GetRequiredService<CaptureQueue>();
        if (queue.Find(context.Request.Query["job"].ToString()) is not { } job || job.Request.By != AccessCheck.CodeOf(context))
        {
            await Page.Message(context, StatusCodes.Status404NotFound, Texts.NoSuchUpload, Texts.NoSuchUploadAdvice);
            return;
        }
        await Task.WhenAny(job.Done.Task, Task.Delay(PageWaits, context.RequestAborted));
        if (!job.Done.Task.IsCompleted)
        {
            long ahead = queue.Ahead(job);
            await Page.Write(context, Texts.Waiting, [El("p.waiting", Attr("role", "status"), ahead == 0 ? Texts.BeingMeasured : string.Create(CultureInfo.InvariantCulture, $"{Texts.Ahead}: {ahead}")), El("p", Texts.WaitingAdvice)], refreshSeconds: 1);
            return;
        }
        CaptureResult result = await job.Done.Task;
        if (result.InspectionId is { } inspection) await Page.Redirect(context, InspectionPages.PathOf(inspection));
        else await Camera(context, result.Refusal);
    }
}
