using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace EdgeLens.Web.Pages;

/// <summary>Style and script, which lie inside the program.</summary>
internal static class EmbeddedFile
{
    /// <summary>Serves a file under the name that it has as a resource.</summary>
    /// <param name="app">That serves.</param>
    /// <param name="name">Of the file.</param>
    /// <param name="type">Its content type.</param>
    /// <param name="setHeaders">Headers beside those of every answer; null: none.</param>
    public static IEndpointConventionBuilder Map(IEndpointRouteBuilder app, string name, string type, Action<HttpContext>? setHeaders = null)
    {
        using StreamReader reader = new(typeof(EmbeddedFile).Assembly.GetManifestResourceStream(name)!, Encoding.UTF8);
        string text = reader.ReadToEnd();
        return app.MapGet("/" + name, (RequestDelegate)(context =>
        {
            setHeaders?.Invoke(context);
            context.Response.ContentType = type;
            return context.Response.WriteAsync(text);
        }));
    }
}
