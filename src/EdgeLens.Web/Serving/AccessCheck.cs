using System.Security.Claims;
using EdgeLens.Web.Devices;
using EdgeLens.Web.Pages;
using EdgeLens.Web.People;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace EdgeLens.Web.Serving;

/// <summary>The one door: device, then session, then role. What is not allowed by name is refused.</summary>
internal static class AccessCheck
{
    public const string DeviceCookie = "edgelens-device";

    public static Task Check(HttpContext context, Func<Task> next)
    {
        RouteAccess? access = context.GetEndpoint()?.Metadata.GetMetadata<RouteAccess>();
        ServerSettings settings = context.RequestServices.GetRequiredService<ServerSettings>();
        bool isKnownDevice = settings.IsThisMachine(context.Connection.RemoteIpAddress) || context.RequestServices.GetRequiredService<PairedDevices>().Knows(context.Request.Cookies[DeviceCookie]);
        string path = context.Request.Path.Value ?? "";
        if (!isKnownDevice && path is not ("/pair" or "/pair/code" or "/web.css" or "/capture.js" or "/capture-worker.js")) return Elsewhere(context, "/pair");
        if (context.GetEndpoint() is null) return Page.Message(context, StatusCodes.Status404NotFound, Texts.NoSuchPage, Texts.GoBack);
        if (access is { Roles.Count: 0 }) return next();
        if (context.User.Identity?.IsAuthenticated != true) return Elsewhere(context, "/sign-in");
        return access is not null && RoleOf(context) is { } role && access.Roles.Contains(role) ? next() : Page.Message(context, StatusCodes.Status403Forbidden, Texts.NotYours, Texts.NotYoursAdvice);
    }

    /// <summary>Of who is signed in; null: nobody.</summary>
    public static Role? RoleOf(HttpContext context) => Enum.TryParse(context.User.FindFirstValue(ClaimTypes.Role), out Role role) ? role : null;

    /// <summary>Staff code of who is signed in.</summary>
    public static string CodeOf(HttpContext context) => context.User.Identity?.Name ?? throw new InvalidOperationException("Nobody is signed in.");

    private static Task Elsewhere(HttpContext context, string path)
    {
        // A redirect would be followed by a GET: right for a page, and a form's content is lost in either case.
        context.Response.StatusCode = StatusCodes.Status303SeeOther;
        context.Response.Headers.Location = path;
        return Task.CompletedTask;
    }
}
