using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace EdgeLens.Web.Pages;

/// <summary>Style and script, which lie inside the program.</summary>
internal static class EmbeddedFile
{
    /// <summary>Serves a file under the name that it has as a resource.</summary>
    public static IEndpointConventionBuilder Map(IEndpointRouteBuilder app, string name, string type)
    {
        using StreamReader reader = new(typeof(EmbeddedFile).Assembly.GetManifestResourceStream(name)!, Encoding.UTF8);
        string text = reader.ReadToEnd();
        return app.MapGet("/" + name, (RequestDelegate)(context =>
        {
            context.Response.ContentType = type;
            return context.Response.WriteAsync(text);
        }));
    }
}
