using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace EdgeLens.Web.Pages;

/// <summary>Leads each to their own page.</summary>
internal static class HomePage
{
    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/", (RequestDelegate)(context => Page.Redirect(context, AccessCheck.RoleOf(context) switch
    {
        Role.LeadClinician => "/review",
        Role.Manager => "/practice",
        _ => "/capture",
    }))).ForAllStaff();
}
