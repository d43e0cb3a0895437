using System.Net;
using EdgeLens.Records.Inspections;
using EdgeLens.Web.Capturing;
using EdgeLens.Web.People;
using Xunit;

namespace EdgeLens.WebTests;

public sealed class CaptureTests
{
    private const string Page = "/capture/photograph?instrument=C-07&end=1";

    [Fact]
    public async Task A_photograph_is_measured_kept_shown_and_signed_off_once()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await server.SignedIn(Role.Nurse), lead = await server.SignedIn(Role.LeadClinician);
        byte[] asNew = await Bytes("C-07/2025-01-10-face.jpg"), today = await Bytes("C-07/2025-06-20-face.jpg");
        HttpResponseMessage first = await nurse.Settled(await nurse.Upload(Page, asNew, "x.jpg", ("asnew", "yes")));
        Assert.Equal(HttpStatusCode.SeeOther, first.StatusCode);
        HttpResponseMessage second = await nurse.Settled(await nurse.Upload(Page, today, "../../evil.php", ("note", "slides <b>")));
        string path = second.Headers.Location!.OriginalString;
        string shown = await nurse.Text(path);
        InspectionEntry entry = server.Book.Current<InspectionEntry>().Last();
        Assert.Equal(("NU1", "C-07", "slides <b>"), (entry.By, entry.Instrument, entry.Note));
        Assert.Contains(WebUtility.HtmlEncode(entry.Headline), shown, StringComparison.Ordinal);
        Assert.DoesNotContain("<b>", shown, StringComparison.Ordinal);
        PhotographRow kept = server.Book.Photographs(entry.Id).Single();
        Assert.Equal(today, await File.ReadAllBytesAsync(server.Book.PhotographPath(kept.Sha256), TestContext.Current.CancellationToken));
        Assert.DoesNotContain("evil", kept.FileName, StringComparison.Ordinal);
        HttpResponseMessage picture = await nurse.Get(path + "/picture");
        Assert.Equal("image/svg+xml", picture.Content.Headers.ContentType?.MediaType);
        Assert.Contains("class=\"outline\"", await picture.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Contains("C-07", await lead.Text("/review"), StringComparison.Ordinal);

        HttpResponseMessage wordless = await lead.Post(path, path + "/decision", ("decision", "back"));
        Assert.Equal(HttpStatusCode.BadRequest, wordless.StatusCode);
        Assert.Equal("/review", (await lead.Post(path, path + "/decision", ("decision", "agree"), ("comment", "yes"))).Headers.Location?.OriginalString);
        SignOff row = Assert.Single(server.Book.Current<SignOff>());
        Assert.Equal((entry.Id, "LC1", true, "yes"), (row.InspectionId, row.By, row.Agrees, row.Comment));
        Assert.DoesNotContain(path + "\"", await lead.Text("/review"), StringComparison.Ordinal);
        Assert.Contains("signed-off", await File.ReadAllTextAsync(Path.Combine(server.Folder, "web", "audit.jsonl"), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        // The page of the second clinician was loaded before: its token is good, its decision too late.
        Assert.Equal(HttpStatusCode.BadRequest, (await lead.Post("/capture/photograph?instrument=L-02&end=1", path + "/decision", ("decision", "back"), ("comment", "no"))).StatusCode);
        Assert.Single(server.Book.Current<SignOff>());
        Assert.Empty(Directory.EnumerateFiles(Path.Combine(server.Folder, "web", "incoming")));
    }

    [Fact]
    public async Task A_refused_photograph_says_what_to_change_leads_to_the_camera_and_does_not_enter_the_book()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await server.SignedIn(Role.Nurse);
        byte[] overexposed = await Bytes("refuse/overexposed.jpg");
        foreach (byte[] bytes in (byte[][])[overexposed, "<?php echo 1; ?>"u8.ToArray(), [0xFF, 0xD8, 0xFF, 0xE0, 0, 16]])
        {
            HttpResponseMessage answer = await nurse.Settled(await nurse.Upload(Page, bytes, "photo.jpg"));
            string text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
            Assert.Contains("role=\"alert\"", text, StringComparison.Ordinal);
            Assert.Contains("capture=\"environment\"", text, StringComparison.Ordinal);
        }
        Assert.Empty(server.Book.Current<InspectionEntry>());
        Assert.Empty(server.Said);
    }

    [Fact]
    public async Task An_upload_over_the_limit_is_refused_before_it_is_kept()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await server.SignedIn(Role.Nurse);
        HttpStatusCode? code = null;
        try
        {
            code = (await nurse.Upload(Page, new byte[IncomingFolder.MaxUploadBytes + 100_000], "photo.jpg")).StatusCode;
        }
        catch (HttpRequestException)
        {
            // The server hangs up while the client still sends: refused as well.
        }
        Assert.True(code is null or HttpStatusCode.RequestEntityTooLarge, $"{code}");
        Assert.Empty(Directory.EnumerateFiles(Path.Combine(server.Folder, "web", "incoming")));
        Assert.Equal(HttpStatusCode.OK, (await nurse.Get("/capture")).StatusCode);
    }

    [Fact]
    public async Task Uploads_wait_in_order_show_their_place_and_are_seen_by_their_sender_alone_and_pages_go_on()
    {
        using ManualResetEventSlim gate = new();
        CaptureOutcome refused = new(null, null, null, new("test", "Held until the test lets go.", "Wait."));
        await using RunningServer server = await RunningServer.Start(measure: _ =>
        {
            gate.Wait();
            return refused;
        });
        using Visitor nurse = await server.SignedIn(Role.Nurse), lead = await server.SignedIn(Role.LeadClinician);
        try
        {
            List<string> waiting = [];
            for (int i = 0; i < CaptureQueue.Workers + CaptureQueue.Capacity + 1; i++)
                waiting.Add((await nurse.Upload(Page, [1], "photo.jpg")) is { StatusCode: HttpStatusCode.SeeOther } taken ? taken.Headers.Location!.OriginalString : "full");
            Assert.Equal("full", waiting[^1]);
            Assert.DoesNotContain("full", waiting[..^2]);
            Assert.Contains($"Photographs before yours: 4", await nurse.Text(waiting[CaptureQueue.Workers + 3]), StringComparison.Ordinal);
            Assert.Equal(HttpStatusCode.NotFound, (await lead.Get(waiting[0])).StatusCode);
            Assert.Equal(HttpStatusCode.OK, (await lead.Get("/capture")).StatusCode);
            gate.Set();
            Assert.Contains("Held until the test lets go.", await (await nurse.Settled(new() { Headers = { Location = new(waiting[^2], UriKind.Relative) } })).Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }
        finally
        {
            gate.Set();
        }
    }

    private static Task<byte[]> Bytes(string name) => File.ReadAllBytesAsync(RunningServer.Demo(name), TestContext.Current.CancellationToken);
}
