using System.Text;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace EdgeLens.Web.Pages;

/// <summary>The two scripts of the capture pages: what keeps photographs until they are sent, and what answers while the server cannot be reached. Anybody may have them.</summary>
internal static class ScriptPages
{
    public static void Map(IEndpointRouteBuilder app)
    {
        foreach (string name in (string[])["capture.js", "capture-worker.js"])
        {
            Lazy<string> script = new(() => Read(name));
            app.MapGet("/" + name, (RequestDelegate)(context =>
            {
                SecurityHeaders.SetForCapture(context);
                context.Response.ContentType = "text/javascript; charset=utf-8";
                return context.Response.WriteAsync(script.Value);
            })).ForAnyone();
        }
    }

    private static string Read(string name)
    {
        using StreamReader reader = new(typeof(ScriptPages).Assembly.GetManifestResourceStream(name)!, Encoding.UTF8);
        return reader.ReadToEnd();
    }
}
