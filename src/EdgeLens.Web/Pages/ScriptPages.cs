using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Routing;

namespace EdgeLens.Web.Pages;

/// <summary>The two scripts of the capture pages: what keeps photographs until they are sent, and what answers while the server cannot be reached. Anybody may have them.</summary>
internal static class ScriptPages
{
    public static void Map(IEndpointRouteBuilder app)
    {
        // A service worker may do what the headers of its own file allow.
        foreach (string name in (string[])["capture.js", "capture-worker.js"]) EmbeddedFile.Map(app, name, "text/javascript; charset=utf-8", SecurityHeaders.SetForCapture).ForAnyone();
    }
}
