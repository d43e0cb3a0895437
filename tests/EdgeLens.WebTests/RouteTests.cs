using System.Net;
using EdgeLens.Web.People;
using Microsoft.AspNetCore.Routing;
using Xunit;

namespace EdgeLens.WebTests;

/// <summary>Who may what, written down a second time: every route of the running server is held against this table, so that a new one cannot be forgotten.</summary>
public sealed class RouteTests
{
    private const string Anyone = "anyone", Staff = "Nurse LeadClinician Manager", Takers = "Nurse LeadClinician", Deciders = "LeadClinician", Planners = "LeadClinician Manager";

    private static readonly Dictionary<string, string> MayUse = new()
    {
        ["GET /web.css"] = Anyone,
        ["GET /capture.js"] = Anyone,
        ["GET /capture-worker.js"] = Anyone,
        ["GET /sign-in"] = Anyone,
        ["POST /sign-in"] = Anyone,
        ["GET /pair"] = Anyone,
        ["POST /pair"] = Anyone,
        ["POST /pair/code"] = Anyone,
        ["GET /"] = Staff,
        ["POST /sign-out"] = Staff,
        ["GET /capture"] = Takers,
        ["GET /capture/photograph"] = Takers,
        ["POST /capture/photograph"] = Takers,
        ["GET /capture/waiting"] = Takers,
        ["GET /capture/offline"] = Takers,
        ["GET /capture/sent"] = Takers,
        ["GET /capture/token"] = Takers,
        ["GET /capture/held"] = Takers,
        ["POST /capture/held"] = Takers,
        ["GET /inspections/{id:long}"] = Staff,
        ["GET /inspections/{id:long}/picture"] = Staff,
        ["GET /inspections/{id:long}/report"] = Staff,
        ["GET /inspections/{id:long}/registered"] = Staff,
        ["GET /compare"] = Staff,
        ["GET /compare.js"] = Staff,
        ["GET /instrument"] = Staff,
        ["POST /inspections/{id:long}/decision"] = Deciders,
        ["GET /review"] = Deciders,
        ["GET /practice"] = Planners,
        ["GET /practice/report"] = Planners,
        ["GET /practice/work-list"] = Staff,
    };

    [Fact]
    public async Task Every_route_refuses_the_anonymous_and_the_wrong_role()
    {
        await using RunningServer server = await RunningServer.Start();
        string[] routes =
        [
            .. ((IEndpointRouteBuilder)server.App).DataSources.SelectMany(s => s.Endpoints).Cast<RouteEndpoint>()
                .SelectMany(e => e.Metadata.GetRequiredMetadata<HttpMethodMetadata>().HttpMethods.Select(m => $"{m} {e.RoutePattern.RawText}")),
        ];
        Assert.Equal(MayUse.Keys.Order(StringComparer.Ordinal), routes.Order(StringComparer.Ordinal));
        using Visitor anonymous = server.NewVisitor();
        foreach (string route in routes.Where(r => MayUse[r] != Anyone))
        {
            HttpResponseMessage answer = await Ask(anonymous, route);
            Assert.True(answer.StatusCode == HttpStatusCode.SeeOther && answer.Headers.Location?.OriginalString == "/sign-in", $"{route} answers the anonymous with {answer.StatusCode}.");
        }
        foreach (Role role in Enum.GetValues<Role>())
        {
            using Visitor visitor = await server.SignedIn(role);
            foreach (string route in routes.Where(r => MayUse[r] != Anyone))
            {
                HttpStatusCode code = (await Ask(visitor, route)).StatusCode;
                if (!MayUse[route].Split(' ').Contains(role.ToString())) Assert.True(code == HttpStatusCode.Forbidden, $"{route} answers {role} with {code}.");
                // Whoever may is let in, and a form without its page's token still changes nothing.
                else if (route.StartsWith("POST", StringComparison.Ordinal)) Assert.True(code == HttpStatusCode.BadRequest, $"{route} without a token answers {role} with {code}.");
                else Assert.True(code != HttpStatusCode.Forbidden && (int)code < 500, $"{route} answers {role} with {code}.");
            }
        }
    }

    [Fact]
    public async Task Every_answer_carries_the_headers_that_keep_script_and_frames_out()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor visitor = await server.SignedIn(Role.LeadClinician);
        foreach (string path in (string[])["/sign-in", "/review", "/capture/held", "/no-such-page", "/practice/report", "/web.css"])
        {
            HttpResponseMessage answer = await visitor.Get(path);
            string policy = answer.Headers.GetValues("Content-Security-Policy").Single();
            Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("script-src", policy, StringComparison.Ordinal);
            Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
            Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
            Assert.True(answer.Headers.CacheControl?.NoStore);
            Assert.DoesNotContain("<script", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.OrdinalIgnoreCase);
        }
    }

    [Fact]
    public async Task Pages_to_photograph_with_run_our_own_script_alone_and_no_other_page_runs_any()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor visitor = await server.SignedIn(Role.LeadClinician);
        foreach (string path in (string[])["/capture", "/capture/photograph", "/capture/offline", "/capture.js", "/capture-worker.js"])
        {
            HttpResponseMessage answer = await visitor.Get(path);
            string policy = answer.Headers.GetValues("Content-Security-Policy").Single();
            Assert.StartsWith("default-src 'none'", policy, StringComparison.Ordinal);
            Assert.EndsWith("script-src 'self'; worker-src 'self'; connect-src 'self'", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
            Assert.True(answer.Headers.CacheControl?.NoStore);
            string text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
            if (!path.EndsWith(".js", StringComparison.Ordinal)) Assert.Equal("<script src=\"/capture.js\" defer=\"defer\"></script>", System.Text.RegularExpressions.Regex.Match(text, "<script.*?</script>").Value);
        }
        // What the phone keeps for all who use it names nobody and carries no token.
        string kept = await visitor.Text("/capture/offline");
        Assert.DoesNotContain("LC1", kept, StringComparison.Ordinal);
        Assert.DoesNotContain("__RequestVerificationToken", kept, StringComparison.Ordinal);
    }

    private static Task<HttpResponseMessage> Ask(Visitor visitor, string route)
    {
        string[] parts = route.Split(' ');
        HttpRequestMessage request = new(new(parts[0]), parts[1].Replace("{id:long}", "1", StringComparison.Ordinal));
        return visitor.Client.SendAsync(request, TestContext.Current.CancellationToken);
    }
}
