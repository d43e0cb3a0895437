using Microsoft.AspNetCore.Http;

namespace EdgeLens.Web.Serving;

/// <summary>Headers of every answer. Pages load nothing but our own style and pictures, and run no script, but for those that say so.</summary>
internal static class SecurityHeaders
{
    private const string OfPages = "default-src 'none'; style-src 'self'; img-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    /// <summary>Our own script and its talk with us, for the pages to photograph with; nothing inline, nothing from elsewhere.</summary>
    private const string OfCapture = OfPages + "; script-src 'self'; worker-src 'self'; connect-src 'self'";

    /// <summary>Reports are files on their own: styles and pictures lie inside them. The sandbox takes them script, forms and our cookies.</summary>
    private const string OfReports = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox";

    public static Task Set(HttpContext context, Func<Task> next)
    {
        IHeaderDictionary headers = context.Response.Headers;
        headers.ContentSecurityPolicy = OfPages;
        headers.XContentTypeOptions = "nosniff";
        headers.XFrameOptions = "DENY";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=()";
        // Photographs and reports stay out of caches: the next user of the device is somebody else.
        headers.CacheControl = "no-store";
        return next();
    }

    /// <summary>For a page with a script of ours: from its file, nothing inline, and it may talk to nobody.</summary>
    public static void AllowOwnScript(HttpContext context) => context.Response.Headers.ContentSecurityPolicy = OfPages + "; script-src 'self'";

    /// <summary>For a page to photograph with, and its script.</summary>
    public static void SetForCapture(HttpContext context) => context.Response.Headers.ContentSecurityPolicy = OfCapture;

    /// <summary>For an answer that is a report or a drawing.</summary>
    public static void SetForReport(HttpContext context) => context.Response.Headers.ContentSecurityPolicy = OfReports;
}
