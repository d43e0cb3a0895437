using System.Threading.RateLimiting;
using EdgeLens.Web.Pages;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.RateLimiting;

namespace EdgeLens.Web.Serving;

/// <summary>How often one address may ask.</summary>
internal static class RateLimits
{
    /// <summary>All requests of an address in a minute: a person with a fast finger makes one or two pages a second, each with a style and a picture.</summary>
    public const int RequestsAMinute = 600;

    /// <summary>Tries to sign in or to pair: more than a whole practice behind one address needs, far too few to guess.</summary>
    public const int TriesAMinute = 20;

    public static void Configure(RateLimiterOptions options, ServerSettings settings)
    {
        options.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
        options.OnRejected = (rejected, _) => new(Page.Message(rejected.HttpContext, StatusCodes.Status429TooManyRequests, Texts.TooOften, Texts.TooOftenAdvice));
        options.GlobalLimiter = PartitionedRateLimiter.CreateChained(
            PartitionedRateLimiter.Create<HttpContext, string>(c => RateLimitPartition.GetFixedWindowLimiter(AddressOf(c), _ => AMinute(settings.RequestsAMinute))),
            PartitionedRateLimiter.Create<HttpContext, string>(c => IsTry(c) ? RateLimitPartition.GetFixedWindowLimiter(AddressOf(c), _ => AMinute(TriesAMinute)) : RateLimitPartition.GetNoLimiter("")));
    }

    public static string AddressOf(HttpContext context) => context.Connection.RemoteIpAddress?.ToString() ?? "unknown";

    private static bool IsTry(HttpContext context) => HttpMethods.IsPost(context.Request.Method) && context.Request.Path.Value is "/sign-in" or "/pair" or "/pair/code";

    private static FixedWindowRateLimiterOptions AMinute(int permits) => new() { PermitLimit = permits, Window = TimeSpan.FromMinutes(1), QueueLimit = 0 };
}
