using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Books;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Sharpening;
using EdgeLens.Web.Capturing;
using EdgeLens.Web.People;
using Xunit;

namespace EdgeLens.WebTests;

/// <summary>Before and after sharpening, toe and side views, and what is sent twice.</summary>
public sealed class CaptureFlowTests
{
    private const string Page = "/capture/photograph?instrument=C-07&end=1", SidePage = "/capture/photograph?instrument=L-02&end=1";

    [Fact]
    public async Task A_photograph_after_sharpening_stands_beside_the_one_from_before_in_the_book_and_on_its_page()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await server.SignedIn(Role.Nurse);
        await Take(nurse, Page, "C-07/2025-01-10-face.jpg", ("asnew", "yes"));
        string before = await Take(nurse, Page, "C-07/2025-06-20-face.jpg", ("moment", "BeforeSharpening"));
        string offered = await nurse.Text(before);
        Assert.Contains("Photograph again after sharpening", offered, StringComparison.Ordinal);
        InspectionEntry dull = server.Book.Current<InspectionEntry>()[^1];
        Assert.Contains($"before={dull.Id}", offered, StringComparison.Ordinal);
        Assert.Contains("checked=\"checked\"", await nurse.Text($"{Page}&before={dull.Id}"), StringComparison.Ordinal);
        string after = await Take(nurse, Page, "C-07/2025-06-21-face.jpg", ("moment", "AfterSharpening"), ("before", $"{dull.Id}"), ("sharpenedby", "lc1"));
        InspectionEntry sharp = server.Book.Current<InspectionEntry>()[^1];
        SharpeningPair pair = Assert.Single(server.Book.Current<SharpeningPair>());
        SharpeningRow row = Assert.Single(server.Book.Current<SharpeningRow>());
        Assert.Equal((dull.Id, sharp.Id, row.Id), (pair.BeforeInspectionId, pair.InspectionId, pair.SharpeningId));
        Assert.Equal(("LC1", InspectionMoment.AfterSharpening, InspectionMoment.BeforeSharpening), (row.SharpenedBy, sharp.Moment, dull.Moment));
        // By its time the sharpening lies between the two.
        Assert.True(row.When <= sharp.When && row.When > dull.When.AddSeconds(-1));
        string page = await nurse.Text(after);
        Assert.Contains($"/inspections/{dull.Id}/picture", page, StringComparison.Ordinal);
        Assert.Contains($"/inspections/{sharp.Id}/picture", page, StringComparison.Ordinal);
        foreach (string words in (string[])["left edge", "greatest edge radius before", "greatest edge radius after", "width taken off"]) Assert.Contains(words, page, StringComparison.Ordinal);
        // What the command says of the same two photographs.
        using StringWriter output = new();
        EdgeLens.Cli.Commands.CommandLine.Run(["sharpened", "--before", RunningServer.Demo("C-07/2025-06-20-face.jpg"), "--after", RunningServer.Demo("C-07/2025-06-21-face.jpg"), "--family", "universal-curette", "--instrument", "C-07"], new(output, TextWriter.Null, TimeProvider.System));
        Assert.Contains("greatest edge radius before", output.ToString(), StringComparison.Ordinal);
        Assert.Equal(output.ToString(), new KeptPages(server.Folder).Sharpening(sharp.Id));
    }

    [Fact]
    public async Task A_toe_view_joins_the_face_view_of_its_day_and_without_one_it_waits()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await server.SignedIn(Role.Nurse);
        string held = await Take(nurse, Page, "C-07/2025-01-10-toe.jpg");
        Assert.StartsWith("/capture/held?id=", held, StringComparison.Ordinal);
        Assert.Contains("there is no face view of C-07 end 1 of that day yet", await nurse.Text(held), StringComparison.Ordinal);
        await Take(nurse, Page, "C-07/2025-01-10-face.jpg", ("asnew", "yes"));
        string joined = (await nurse.Settled(await nurse.Post(held, "/capture/held", ("id", held[^32..]), ("instrument", "C-07"), ("end", "1")))).Headers.Location!.OriginalString;
        InspectionEntry entry = Assert.Single(server.Book.Current<InspectionEntry>());
        Assert.Equal((true, "toe view added"), (entry.IsAsNew, entry.CorrectionReason));
        Assert.Equal([PhotographView.Face, PhotographView.Toe], server.Book.Photographs(entry.Id).Select(p => p.View));
        Assert.Contains(server.Book.Figures(entry.Id), f => f.Name == "faceAngleDeg" && f.Value is not null);
        string page = await nurse.Text(joined);
        Assert.Contains("Face to shank", page, StringComparison.Ordinal);
        // Once more, not new any longer: the angles are held against those.
        await Take(nurse, Page, "C-07/2025-06-21-face.jpg");
        string drifted = await nurse.Text(await Take(nurse, Page, "C-07/2025-06-21-toe.jpg", ("view", "Toe")));
        Assert.Contains("Face to shank", drifted, StringComparison.Ordinal);
        Assert.Matches(@"<td>\D?\d+\.\d ± \d+\.\d °</td><td>\D?\d+\.\d ± \d+\.\d °</td>", drifted);
    }

    [Fact]
    public async Task A_stated_view_that_the_picture_contradicts_is_told_and_the_same_photograph_is_filed_as_seen()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await server.SignedIn(Role.Nurse);
        await Take(nurse, SidePage, "L-02/2025-02-01-face.jpg", ("asnew", "yes"));
        string held = await Take(nurse, SidePage, "L-02/2025-02-01-side.jpg", ("view", "Face"));
        Assert.Contains("was said to be a face view and shows a side view", await nurse.Text(held), StringComparison.Ordinal);
        await nurse.Settled(await nurse.Post(held, "/capture/held", ("id", held[^32..]), ("instrument", "L-02"), ("end", "1")));
        InspectionEntry entry = Assert.Single(server.Book.Current<InspectionEntry>());
        Assert.Equal([PhotographView.Face, PhotographView.Side], server.Book.Photographs(entry.Id).Select(p => p.View));
        string wrong = await Take(nurse, SidePage, "L-02/2025-05-05-face.jpg", ("view", "Side"));
        Assert.Contains("was said to be a side view and shows a face view", await nurse.Text(wrong), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_a_phone_sends_twice_enters_once_also_when_the_server_has_forgotten_the_first()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await server.SignedIn(Role.Nurse);
        string sent = new('a', 32);
        byte[] photograph = await File.ReadAllBytesAsync(RunningServer.Demo("C-07/2025-01-10-face.jpg"), TestContext.Current.CancellationToken);
        System.Net.Http.HttpResponseMessage first = await nurse.Upload(Page, photograph, "x.jpg", ("sent", sent)), again = await nurse.Upload(Page, photograph, "x.jpg", ("sent", sent), ("age", "30"));
        Assert.Equal(first.Headers.Location, again.Headers.Location);
        await nurse.Settled(again);
        InspectionEntry entry = Assert.Single(server.Book.Current<InspectionEntry>());
        string path = Path.Combine(server.Folder, "again");
        await File.WriteAllBytesAsync(path, photograph, TestContext.Current.CancellationToken);
        CaptureMeasurer afterRestart = new(server.Book, Policy.Default, new ViewReader(InputFile.Card(null), null, Policy.Default, server.Said.Add), null);
        CaptureRequest request = new(server.Book.CurrentOf<Records.Instruments.WorkingEnd>("C-07")[0], "NU1", path, $"20260101-000000-{sent}", DateTime.Now, null, false);
        Assert.Equal(entry.Id, afterRestart.Measure(request).EnteredAs);
        // The same file taken as another photograph is another photograph.
        Assert.NotNull(afterRestart.Measure(request with { FileName = $"20260101-000000-{new string('b', 32)}" }).Found);
    }

    [Fact]
    public async Task What_cannot_be_entered_is_kept_to_be_tried_again()
    {
        await using RunningServer server = await RunningServer.Start(measure: _ => throw new IOException("disk full"));
        using Visitor nurse = await server.SignedIn(Role.Nurse);
        string held = (await nurse.Settled(await nurse.Upload(Page, [1, 2, 3], "x.jpg"))).Headers.Location!.OriginalString;
        Assert.Equal([1, 2, 3], await File.ReadAllBytesAsync(Path.Combine(server.Folder, "web", "held", held[^32..]), TestContext.Current.CancellationToken));
        Assert.Contains("disk full", server.Said.Take(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    private static async Task<string> Take(Visitor nurse, string page, string photograph, params (string, string)[] fields) =>
        (await nurse.Settled(await nurse.Upload(page, await File.ReadAllBytesAsync(RunningServer.Demo(photograph), TestContext.Current.CancellationToken), "x.jpg", fields))).Headers.Location?.OriginalString
            ?? throw new InvalidOperationException($"{photograph} was refused.");
}
