using EdgeLens.Web.Auditing;
using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Web.Pages;

/// <summary>Sign in with staff code and PIN; sign out.</summary>
internal static class SignInPages
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/sign-in", (RequestDelegate)(context => Show(context, null))).ForAnyone();
        app.MapPost("/sign-in", (RequestDelegate)SignIn).ForAnyone();
        app.MapPost("/sign-out", (RequestDelegate)(async context =>
        {
            await context.SignOutAsync();
            context.RequestServices.GetRequiredService<AuditFile>().Write("signed-out", AccessCheck.CodeOf(context), RateLimits.AddressOf(context));
            await Page.Redirect(context, "/sign-in");
        })).ForAllStaff();
    }

    private static Task Show(HttpContext context, string? complaint) => Page.Write(context, Texts.SignIn,
    [
        complaint is null ? null : El("p.complaint", Attr("role", "alert"), complaint),
        Page.Form(context, WantsCapture(context) ? "/sign-in?then=capture" : "/sign-in",
            Page.Field("code", Texts.StaffCode, Attr("autocomplete", "username"), Attr("autocapitalize", "characters"), Attr("maxlength", Records.Entries.StaffCode.Longest), Attr("required", "required")),
            Page.Field("pin", Texts.Pin, Attr("type", "password"), Attr("inputmode", "numeric"), Attr("autocomplete", "current-password"), Attr("maxlength", StaffFile.LongestPin), Attr("required", "required")),
            Page.Submit(Texts.SignIn)),
    ]);

    private static async Task SignIn(HttpContext context)
    {
        IFormCollection form = await context.Request.ReadFormAsync(context.RequestAborted);
        string given = form["code"].ToString().Trim().ToUpperInvariant(), pin = form["pin"].ToString();
        string code = given.Length <= Records.Entries.StaffCode.Longest ? given : given[..Records.Entries.StaffCode.Longest];
        IServiceProvider services = context.RequestServices;
        SignInGuard guard = services.GetRequiredService<SignInGuard>();
        AuditFile audit = services.GetRequiredService<AuditFile>();
        string from = RateLimits.AddressOf(context);
        if (!guard.MayTry(code))
        {
            audit.Write("sign-in-locked", code, from);
            context.Response.StatusCode = StatusCodes.Status429TooManyRequests;
            await Show(context, Texts.Locked);
            return;
        }
        StaffMember? member = services.GetRequiredService<StaffFile>().Find(given);
        if (pin.Length > StaffFile.LongestPin || !PinHasher.IsRight(member, pin))
        {
            audit.Write("sign-in-refused", code, from);
            context.Response.StatusCode = StatusCodes.Status403Forbidden;
            await Show(context, Texts.WrongPin);
            return;
        }
        guard.Passed(code);
        audit.Write("signed-in", member!.Code, from, member.Role.ToString());
        await Sessions.Begin(context, member);
        await Page.Redirect(context, WantsCapture(context) && member.Role != Role.Manager ? "/capture" : "/");
    }

    /// <summary>A phone that could not send for want of a session goes on where it was: one fixed word, so that no address can lead elsewhere.</summary>
    private static bool WantsCapture(HttpContext context) => context.Request.Query["then"] == "capture";
}
