using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace EdgeLens.Web.People;

/// <summary>How long somebody stays signed in.</summary>
internal static class Sessions
{
    /// <summary>Without a request: a phone left on a tray.</summary>
    public static readonly TimeSpan IdleFor = TimeSpan.FromMinutes(30);

    /// <summary>With requests: a working day.</summary>
    public static readonly TimeSpan AtMost = TimeSpan.FromHours(10);

    private const string Stamp = "stamp", Began = "began";

    public static void Configure(CookieAuthenticationOptions options, CookieSecurePolicy secure)
    {
        options.Cookie.Name = "edgelens-session";
        options.Cookie.HttpOnly = true;
        options.Cookie.SameSite = SameSiteMode.Strict;
        options.Cookie.SecurePolicy = secure;
        options.ExpireTimeSpan = IdleFor;
        options.SlidingExpiration = true;
        options.Events.OnValidatePrincipal = Validate;
    }

    public static Task Begin(HttpContext context, StaffMember member)
    {
        TimeProvider clock = context.RequestServices.GetRequiredService<TimeProvider>();
        ClaimsIdentity identity = new(
            [
                new(ClaimTypes.Name, member.Code), new(ClaimTypes.NameIdentifier, member.Code), new(ClaimTypes.Role, member.Role.ToString()), new(Stamp, member.Stamp),
                new(Began, clock.GetUtcNow().ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture)),
            ],
            CookieAuthenticationDefaults.AuthenticationScheme);
        return context.SignInAsync(new ClaimsPrincipal(identity));
    }

    /// <summary>Whoever was removed, or has another role or PIN since, is out.</summary>
    private static async Task Validate(CookieValidatePrincipalContext context)
    {
        IServiceProvider services = context.HttpContext.RequestServices;
        StaffMember? member = context.Principal?.Identity?.Name is { } code ? services.GetRequiredService<StaffFile>().Find(code) : null;
        bool isYoung = long.TryParse(context.Principal?.FindFirstValue(Began), CultureInfo.InvariantCulture, out long began)
            && services.GetRequiredService<TimeProvider>().GetUtcNow() - DateTimeOffset.FromUnixTimeSeconds(began) < AtMost;
        if (member is not null && isYoung && member.Stamp == context.Principal?.FindFirstValue(Stamp)) return;
        context.RejectPrincipal();
        await context.HttpContext.SignOutAsync();
    }
}
