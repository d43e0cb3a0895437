using System.Net;
using System.Text.RegularExpressions;
using EdgeLens.Records.Inspections;
using EdgeLens.Web.People;
using Xunit;

namespace EdgeLens.WebTests;

/// <summary>The smaller brother of the load bench's "phones": six at once, with real photographs and measuring processes.</summary>
public sealed partial class ManyPhonesTests
{
    private const string Page = "/capture/photograph?instrument=C-07&end=1";

    [Fact]
    public async Task Six_phones_at_once_lose_nothing_and_show_their_places_while_pages_answer()
    {
        await using RunningServer server = await RunningServer.Start(measureApart: true);
        using Visitor nurse = await server.SignedIn(Role.Nurse), lead = await server.SignedIn(Role.LeadClinician);
        byte[] photograph = await File.ReadAllBytesAsync(RunningServer.Demo("C-07/2025-06-20-face.jpg"), TestContext.Current.CancellationToken);
        HttpResponseMessage[] sent = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => nurse.Upload(Page, photograph, "photo.jpg")));
        Assert.All(sent, s => Assert.Equal(HttpStatusCode.SeeOther, s.StatusCode));
        // Each answers with its verdict or with its place, which no two share.
        string[] shown = await Task.WhenAll(sent.Select(s => Shown(nurse, s.Headers.Location!.OriginalString)));
        Assert.All(shown, s => Assert.Matches("^(verdict|[0-9]+)$", s));
        Assert.Equal(shown.Where(s => s != "verdict").Distinct().Count(), shown.Count(s => s != "verdict"));
        Assert.All(await Task.WhenAll(((string[])["/capture", "/review", "/practice"]).Select(p => lead.Get(p))), a => Assert.Equal(HttpStatusCode.OK, a.StatusCode));
        HttpResponseMessage[] verdicts = await Task.WhenAll(sent.Select(nurse.Settled));
        Assert.Equal(6, verdicts.Select(v => v.Headers.Location?.OriginalString).OfType<string>().Where(l => l.StartsWith("/inspections/", StringComparison.Ordinal)).Distinct().Count());
        Assert.Equal(6, server.Book.Current<InspectionEntry>().Count);
        Assert.Empty(server.Said);
    }

    private static async Task<string> Shown(Visitor visitor, string path)
    {
        HttpResponseMessage answer = await visitor.Get(path);
        string text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        return answer.StatusCode == HttpStatusCode.SeeOther ? "verdict" : text.Contains("is being measured", StringComparison.Ordinal) ? "0" : Place().Match(text).Groups[1].Value;
    }

    [GeneratedRegex("Photographs before yours: ([0-9]+)")]
    private static partial Regex Place();
}
