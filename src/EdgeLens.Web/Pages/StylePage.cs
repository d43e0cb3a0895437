using System.Text;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace EdgeLens.Web.Pages;

/// <summary>The style sheet, the only file that anybody may have.</summary>
internal static class StylePage
{
    private static readonly Lazy<string> Style = new(() =>
    {
        using StreamReader reader = new(typeof(StylePage).Assembly.GetManifestResourceStream("web.css")!, Encoding.UTF8);
        return reader.ReadToEnd();
    });

    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/web.css", (RequestDelegate)(context =>
    {
        context.Response.ContentType = "text/css; charset=utf-8";
        return context.Response.WriteAsync(Style.Value);
    })).ForAnyone();
}
