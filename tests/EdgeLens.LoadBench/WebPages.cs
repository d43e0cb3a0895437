using System.Diagnostics;
using System.Globalization;
using System.Net;
using EdgeLens.Assessment.Policies;
using EdgeLens.Records.Inspections;
using EdgeLens.Store;
using EdgeLens.Store.Opening;
using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using EdgeLens.WebTests;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Routing;

namespace EdgeLens.LoadBench;

/// <summary>Every page of the web app over a large book, asked one after the other over loopback.</summary>
internal static class WebPages
{
    private const string Pin = "482915";
    private const int WarmUps = 5, Requests = 100;

    public static async Task<int> Run(string folder)
    {
        RecordBook book = BookFolder.Open(folder, Environment.GetEnvironmentVariable("EDGELENS_DATABASE"), TimeProvider.System);
        StaffFile staff = new(folder);
        staff.Set("LC1", Role.LeadClinician, Pin);
        BigPractice practice = new(100_000, seed: 1);
        await using WebApplication app = WebServer.Build(new()
        {
            Book = book,
            BookFolder = folder,
            Policy = Policy.Default,
            Measure = _ => throw new InvalidOperationException("Pages measure nothing."),
            ProgramVersion = "bench",
            // The day on which the invented practice ends: on a later one everything would be overdue.
            Clock = new ShiftedClock(practice.LastDay),
            Say = Console.Error.WriteLine,
            Port = 0,
            RequestsAMinute = int.MaxValue,
        });
        await app.StartAsync();
        using Visitor lead = new(new Uri(app.Urls.Single()));
        HttpResponseMessage signedIn = await lead.Post("/sign-in", "/sign-in", ("code", "LC1"), ("pin", Pin));
        if (signedIn.Headers.Location?.OriginalString != "/") throw new InvalidOperationException($"Not signed in: {signedIn.StatusCode}.");

        InspectionEntry[] ofSample = [.. book.CurrentOf<InspectionEntry>(practice.Sample).OrderBy(i => i.When)];
        string last = ofSample[^1].Id.ToString(CultureInfo.InvariantCulture), before = ofSample[^2].Id.ToString(CultureInfo.InvariantCulture);
        Dictionary<string, string> queries = new()
        {
            ["/capture/photograph"] = $"?instrument={practice.Sample}&end=1",
            ["/capture/waiting"] = "?job=none",
            ["/instrument"] = $"?code={practice.Sample}",
            ["/compare"] = $"?then={before}&now={last}",
        };
        string[] patterns = [.. ((IEndpointRouteBuilder)app).DataSources.SelectMany(s => s.Endpoints).Cast<RouteEndpoint>()
            .Where(e => e.Metadata.GetRequiredMetadata<HttpMethodMetadata>().HttpMethods.Contains("GET")).Select(e => e.RoutePattern.RawText!).Order(StringComparer.Ordinal)];
        Console.WriteLine($"{"page",-42} answer    kB  median ms   95 % ms  longest ms");
        double worst = 0;
        foreach (string pattern in patterns)
        {
            string path = pattern.Replace("{id:long}", last, StringComparison.Ordinal) + queries.GetValueOrDefault(pattern);
            worst = Math.Max(worst, await Ask(lead, pattern, path));
        }
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"slowest 95 %: {worst:0} ms"));
        // What somebody waits who asks right after something was entered, before the review was made anew.
        List<double> afterEntry = [];
        for (int i = 0; i < 20; i++)
        {
            book.Append(practice.Next(i));
            long start = Stopwatch.GetTimestamp();
            (await lead.Get("/practice")).EnsureSuccessStatusCode();
            afterEntry.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }
        afterEntry.Sort();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"/practice right after an entry: median {afterEntry[10]:0} ms, longest {afterEntry[^1]:0} ms"));
        await app.StopAsync();
        return 0;
    }

    private static async Task<double> Ask(Visitor visitor, string pattern, string path)
    {
        HttpStatusCode code = default;
        long bytes = 0;
        List<double> times = [];
        for (int i = 0; i < WarmUps + Requests; i++)
        {
            long start = Stopwatch.GetTimestamp();
            using HttpResponseMessage answer = await visitor.Get(path);
            byte[] body = await answer.Content.ReadAsByteArrayAsync();
            if (i >= WarmUps) times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            (code, bytes) = (answer.StatusCode, body.Length);
        }
        times.Sort();
        double high = times[Requests * 95 / 100 - 1];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{pattern,-42} {(int)code,6} {bytes / 1000.0,5:0.0} {times[Requests / 2],10:0.0} {high,9:0.0} {times[^1],11:0.0}"));
        return high;
    }

    private sealed class ShiftedClock(DateOnly today) : TimeProvider
    {
        private readonly TimeSpan _shift = today.ToDateTime(new(12, 0)) - DateTime.UtcNow;

        public override DateTimeOffset GetUtcNow() => DateTimeOffset.UtcNow + _shift;
    }
}
