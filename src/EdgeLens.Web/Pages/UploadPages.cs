using System.Globalization;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Web.Capturing;
using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Web.Pages;

/// <summary>Takes a photograph in, lets its sender wait for what comes of it, and tells the phone's script the same as JSON.</summary>
internal static class UploadPages
{
    /// <summary>A page waits this long for its result before it shows the place in the queue: most results come within it.</summary>
    private static readonly TimeSpan PageWaits = TimeSpan.FromSeconds(2);

    /// <summary>How long a photograph may have waited on a phone for its time to be believed.</summary>
    private static readonly TimeSpan LongestWait = TimeSpan.FromDays(30);

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapPost("/capture/photograph", (RequestDelegate)Upload).For(Role.Nurse, Role.LeadClinician).WithMetadata(new IncomingFolder.SizeLimit());
        app.MapGet("/capture/waiting", (RequestDelegate)Wait).For(Role.Nurse, Role.LeadClinician);
        app.MapGet("/capture/sent", (RequestDelegate)Sent).For(Role.Nurse, Role.LeadClinician);
        app.MapGet("/capture/token", (RequestDelegate)Token).For(Role.Nurse, Role.LeadClinician);
    }

    private static async Task Upload(HttpContext context)
    {
        if (!CapturePages.IsByTag(context) && CapturePages.Named(context) is null)
        {
            await Refuse(context, StatusCodes.Status404NotFound, Texts.NoSuchEnd, Texts.GoBack);
            return;
        }
        IFormCollection form = await context.Request.ReadFormAsync(context.RequestAborted);
        // No page of ours sends one: its field takes no more.
        if (form["note"].ToString().Trim().Length > CaptureForm.LongestNote)
        {
            await Refuse(context, StatusCodes.Status400BadRequest, Texts.TooLarge, Texts.GoBack);
            return;
        }
        string by = AccessCheck.CodeOf(context), sent = form["sent"].ToString();
        string? sentId = IncomingFolder.IsId(sent) ? sent : null;
        CaptureQueue queue = context.RequestServices.GetRequiredService<CaptureQueue>();
        // Sent again while the first is being measured, or after it was: the same photograph.
        CaptureJob? job = sentId is null ? null : queue.FindSent(sentId, by);
        if (job is null)
        {
            if (form.Files.GetFile("photograph") is not { Length: > 0 } file)
            {
                context.Response.StatusCode = StatusCodes.Status400BadRequest;
                if (WantsJson(context)) await Answer(context, "refused", null, Texts.NoPhotograph, Texts.NoPhotographAdvice);
                else await CapturePages.Camera(context, new("file-empty", Texts.NoPhotograph, Texts.NoPhotographAdvice));
                return;
            }
            string path = await context.RequestServices.GetRequiredService<IncomingFolder>().Take(file, context.RequestAborted);
            job = queue.Enter(Request(context, form, path, by, sentId), sentId);
            if (job is null)
            {
                File.Delete(path);
                await Refuse(context, StatusCodes.Status503ServiceUnavailable, Texts.QueueFull, Texts.QueueFullAdvice, state: "full");
                return;
            }
        }
        if (WantsJson(context)) await State(context, job);
        else await Page.Redirect(context, WaitingPath(job));
    }

    private static CaptureRequest Request(HttpContext context, IFormCollection form, string path, string by, string? sentId)
    {
        DateTime now = context.RequestServices.GetRequiredService<TimeProvider>().GetLocalNow().DateTime;
        // The phone says how long ago, not when: its clock may be wrong.
        TimeSpan age = double.TryParse(form["age"], NumberStyles.None, CultureInfo.InvariantCulture, out double seconds) && seconds <= LongestWait.TotalSeconds ? TimeSpan.FromSeconds(seconds) : TimeSpan.Zero;
        DateTime taken = now - age;
        string note = form["note"].ToString().Trim();
        return new(CapturePages.Named(context), by, path, string.Create(CultureInfo.InvariantCulture, $"{taken:yyyyMMdd-HHmmss}-{sentId ?? Path.GetFileName(path)}"), taken, note.Length == 0 ? null : note, form["asnew"] == "yes")
        {
            View = Enum.TryParse(form["view"], out PhotographView view) && Enum.IsDefined(view) ? view : null,
            Moment = Enum.TryParse(form["moment"], out InspectionMoment moment) && Enum.IsDefined(moment) ? moment : null,
            BeforeInspectionId = long.TryParse(form["before"], NumberStyles.None, CultureInfo.InvariantCulture, out long before) ? before : null,
            SharpenedBy = Staff(form["sharpenedby"].ToString()),
        };
    }

    /// <summary>What is no staff code is left out: a photograph must not be lost over it.</summary>
    private static string? Staff(string given)
    {
        try
        {
            return given.Trim().Length == 0 ? null : StaffCode.Check(given);
        }
        catch (ArgumentException)
        {
            return null;
        }
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
        if (PathOf(result) is { } path) await Page.Redirect(context, path);
        else await CapturePages.Camera(context, result.Refusal);
    }

    /// <summary>What became of what the phone sent under an id of its own.</summary>
    private static Task Sent(HttpContext context) => context.RequestServices.GetRequiredService<CaptureQueue>().FindSent(context.Request.Query["id"].ToString(), AccessCheck.CodeOf(context)) is { } job
        ? State(context, job) : Answer(context, "unknown", null);

    /// <summary>A fresh token for sending, and who would send.</summary>
    private static Task Token(HttpContext context) => context.Response.WriteAsJsonAsync(new { token = context.RequestServices.GetRequiredService<IAntiforgery>().GetAndStoreTokens(context).RequestToken, staff = AccessCheck.CodeOf(context) });

    private static async Task State(HttpContext context, CaptureJob job)
    {
        await Task.WhenAny(job.Done.Task, Task.Delay(PageWaits, context.RequestAborted));
        if (!job.Done.Task.IsCompleted)
        {
            await Answer(context, "waiting", WaitingPath(job));
            return;
        }
        CaptureResult result = await job.Done.Task;
        await Answer(context, result.InspectionId is not null ? "entered" : result.HeldId is not null ? "held" : "refused", PathOf(result) ?? WaitingPath(job), result.Refusal?.Reason, result.Refusal?.Advice);
    }

    /// <summary>Where a result is shown; null: at the camera, which asks for another photograph.</summary>
    private static string? PathOf(CaptureResult result) => result switch
    {
        { InspectionId: { } inspection, Tag: { } tag } => string.Create(CultureInfo.InvariantCulture, $"{InspectionPages.PathOf(inspection)}?tag={tag}"),
        { InspectionId: { } inspection } => InspectionPages.PathOf(inspection),
        { HeldId: { } held } => "/capture/held?id=" + held,
        _ => null,
    };

    /// <summary>Where the sender of an upload waits for what comes of it.</summary>
    internal static string WaitingPath(CaptureJob job) => $"/capture/waiting?job={job.Id}" + (job.Request.End is { } end ? string.Create(CultureInfo.InvariantCulture, $"&instrument={Uri.EscapeDataString(end.Instrument)}&end={end.End}") : "");

    private static bool WantsJson(HttpContext context) => context.Request.Headers.Accept == "application/json";

    private static Task Refuse(HttpContext context, int status, string reason, string advice, string state = "refused")
    {
        context.Response.StatusCode = status;
        return WantsJson(context) ? Answer(context, state, null, reason, advice) : Page.Message(context, status, reason, advice);
    }

    private static Task Answer(HttpContext context, string state, string? path, string? reason = null, string? advice = null) => context.Response.WriteAsJsonAsync(new { state, path, reason, advice });
}
