using EdgeLens.Web.Auditing;
using EdgeLens.Web.Devices;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Web.Pages;

/// <summary>A device of the network asks for a code, which the server's console shows, and types it in.</summary>
internal static class PairingPages
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/pair", (RequestDelegate)(context => Page.Write(context, Texts.Pair, [El("p", Texts.PairWhy), Page.Form(context, "/pair/code", Page.Submit(Texts.ShowCode))]))).ForAnyone();
        app.MapPost("/pair/code", (RequestDelegate)(context =>
        {
            context.RequestServices.GetRequiredService<PairingCode>().Ask(RateLimits.AddressOf(context));
            return AskForCode(context, null);
        })).ForAnyone();
        app.MapPost("/pair", (RequestDelegate)Pair).ForAnyone();
    }

    private static Task AskForCode(HttpContext context, string? complaint) => Page.Write(context, Texts.Pair,
    [
        complaint is null ? El("p", Texts.CodeIsShown) : El("p.complaint", Attr("role", "alert"), complaint),
        Page.Form(context, "/pair", Page.Field("code", Texts.Code, Attr("inputmode", "numeric"), Attr("autocomplete", "off"), Attr("maxlength", 12), Attr("required", "required")), Page.Submit(Texts.Pair)),
        Page.Form(context, "/pair/code", Page.Submit(Texts.ShowNewCode, "quiet")),
    ]);

    private static async Task Pair(HttpContext context)
    {
        IFormCollection form = await context.Request.ReadFormAsync(context.RequestAborted);
        string from = RateLimits.AddressOf(context);
        AuditFile audit = context.RequestServices.GetRequiredService<AuditFile>();
        if (!context.RequestServices.GetRequiredService<PairingCode>().IsRight(from, form["code"].ToString()))
        {
            audit.Write("pairing-refused", null, from);
            context.Response.StatusCode = StatusCodes.Status403Forbidden;
            await AskForCode(context, Texts.WrongCode);
            return;
        }
        string token = context.RequestServices.GetRequiredService<PairedDevices>().Add();
        audit.Write("paired", null, from);
        context.Response.Cookies.Append(AccessCheck.DeviceCookie, token, new()
        {
            HttpOnly = true,
            SameSite = SameSiteMode.Strict,
            Secure = context.Request.IsHttps,
            MaxAge = PairedDevices.PairedFor,
            Path = "/",
        });
        await Page.Redirect(context, "/sign-in");
    }
}
