using System.Net;
using EdgeLens.Records.Inspections;
using EdgeLens.Web.People;
using Xunit;

namespace EdgeLens.WebTests;

public sealed class CompareTests
{
    private const string Page = "/capture/photograph?instrument=C-07&end=1";

    [Fact]
    public async Task Two_dates_are_laid_over_each_other_and_a_lost_picture_is_made_again()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await server.SignedIn(Role.Nurse), lead = await server.SignedIn(Role.LeadClinician);
        foreach ((string photograph, string isNew) in new[] { ("C-07/2025-01-10-face.jpg", "yes"), ("C-07/2025-06-20-face.jpg", "no") })
            await nurse.Settled(await nurse.Upload(Page, await File.ReadAllBytesAsync(RunningServer.Demo(photograph), TestContext.Current.CancellationToken), "photo.jpg", ("asnew", isNew)));
        InspectionEntry[] days = [.. server.Book.Current<InspectionEntry>()];
        Assert.Contains($"/compare?now={days[1].Id}", await lead.Text("/review"), StringComparison.Ordinal);
        HttpResponseMessage page = await lead.Get($"/compare?now={days[1].Id}");
        string text = await page.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        foreach (InspectionEntry day in days) Assert.Contains($"src=\"/inspections/{day.Id}/registered\"", text, StringComparison.Ordinal);
        string policy = page.Headers.GetValues("Content-Security-Policy").Single();
        Assert.Contains("script-src 'self'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);

        string[] kept = [.. Directory.EnumerateFiles(Path.Combine(server.Folder, "web", "reports"), "*-on-*.jpg").Order(StringComparer.Ordinal)];
        Assert.Equal(2, kept.Length);
        byte[] atCapture = await lead.Client.GetByteArrayAsync($"/inspections/{days[1].Id}/registered", TestContext.Current.CancellationToken);
        Assert.Equal([0xFF, 0xD8], atCapture[..2]);
        foreach (string path in kept) File.Delete(path);
        Assert.Equal(atCapture, await lead.Client.GetByteArrayAsync($"/inspections/{days[1].Id}/registered", TestContext.Current.CancellationToken));
        Assert.Equal(HttpStatusCode.NotFound, (await lead.Get("/compare?now=99999")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await lead.Get("/compare?now=x")).StatusCode);
    }

    [Fact]
    public async Task Without_an_as_new_inspection_the_page_says_what_is_missing()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await server.SignedIn(Role.Nurse);
        HttpResponseMessage taken = await nurse.Settled(await nurse.Upload(Page, await File.ReadAllBytesAsync(RunningServer.Demo("C-07/2025-06-20-face.jpg"), TestContext.Current.CancellationToken), "photo.jpg"));
        string id = taken.Headers.Location!.OriginalString.Split('/')[^1];
        Assert.Contains("no two dates to compare", await nurse.Text($"/compare?now={id}"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await nurse.Get($"/inspections/{id}/registered")).StatusCode);
    }
}
