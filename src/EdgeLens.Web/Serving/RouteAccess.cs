using EdgeLens.Web.People;
using Microsoft.AspNetCore.Builder;

namespace EdgeLens.Web.Serving;

/// <summary>Who may call a route. A route without one is refused to everybody.</summary>
/// <param name="Roles">Empty: anyone, signed in or not.</param>
internal sealed record RouteAccess(IReadOnlyList<Role> Roles);

/// <summary>Says it where the route is mapped.</summary>
internal static class RouteAccessMapping
{
    public static IEndpointConventionBuilder For(this IEndpointConventionBuilder route, params Role[] roles) => route.WithMetadata(new RouteAccess(roles));

    public static IEndpointConventionBuilder ForAnyone(this IEndpointConventionBuilder route) => route.WithMetadata(new RouteAccess([]));

    public static IEndpointConventionBuilder ForAllStaff(this IEndpointConventionBuilder route) => route.For(Role.Nurse, Role.LeadClinician, Role.Manager);
}
