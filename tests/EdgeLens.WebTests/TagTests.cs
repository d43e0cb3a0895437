using System.Net;
using EdgeLens.Cli.Files;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Tests.Tags;
using EdgeLens.Web.Capturing;
using EdgeLens.Web.People;
using Xunit;

namespace EdgeLens.WebTests;

/// <summary>A photograph that shows a tag files itself; one whose tag does not say it, or says something else, is kept and asked about.</summary>
public sealed class TagTests
{
    private const string ByTag = "/capture/photograph", ChosenL02 = "/capture/photograph?instrument=L-02&end=1";

    [Fact]
    public async Task A_photograph_with_a_tag_is_filed_by_it_and_the_page_says_where()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await Tagged(server);
        string path = (await nurse.Settled(await nurse.Upload(ByTag, await Photograph(TaggedPhotograph.Usual(17, 2)), "x.png"))).Headers.Location!.OriginalString;
        Assert.EndsWith("?tag=17", path, StringComparison.Ordinal);
        InspectionEntry entry = Assert.Single(server.Book.Current<InspectionEntry>());
        Assert.Equal(("C-07", 1), (entry.Instrument, entry.End));
        string page = await nurse.Text(path);
        Assert.Contains("Filed by its tag 17", page, StringComparison.Ordinal);
        Assert.Contains("wear eye protection", page, StringComparison.OrdinalIgnoreCase);
        // Not by a link that names another tag.
        Assert.DoesNotContain("Filed by its tag", await nurse.Text(path.Replace("17", "204", StringComparison.Ordinal)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Where_the_tag_does_not_say_it_the_same_photograph_is_filed_by_hand_and_only_its_sender_sees_it()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await Tagged(server), lead = await server.SignedIn(Role.LeadClinician);
        foreach ((byte[] photograph, string reason) in ((byte[], string)[])
        [
            (await Photograph(), "No tag can be read"), (await Photograph(TaggedPhotograph.Usual(500)), "does not know the tag 500"),
            (await Photograph(TaggedPhotograph.Usual(17), new TaggedPhotograph.Strip(204, 46, 17.5)), "Several tags"),
        ])
        {
            string held = (await nurse.Settled(await nurse.Upload(ByTag, photograph, "x.png", ("note", reason)))).Headers.Location!.OriginalString;
            Assert.StartsWith("/capture/held?id=", held, StringComparison.Ordinal);
            Assert.Contains(reason, await nurse.Text(held), StringComparison.Ordinal);
            Assert.DoesNotContain(reason, await lead.Text(held), StringComparison.Ordinal);
        }
        Assert.Empty(server.Book.Current<InspectionEntry>());
        Assert.Contains("Photographs that wait for your answer: 3", await nurse.Text("/capture"), StringComparison.Ordinal);
        // They are on the disk: a server that is started again still has them.
        HeldPhotograph[] kept = new HeldFolder(server.Folder).Of("NU1");
        Assert.Equal(3, kept.Length);
        string id = kept.Single(h => h.Note == "No tag can be read").Id;
        Assert.Equal(HttpStatusCode.NotFound, (await lead.Post("/capture/photograph", "/capture/held", ("id", id), ("instrument", "C-07"), ("end", "1"))).StatusCode);
        Assert.Contains($"value=\"{id}\"", await nurse.Text("/capture?held=" + id + "&q=C-07"), StringComparison.Ordinal);
        string shown = (await nurse.Settled(await nurse.Post("/capture?held=" + id, "/capture/held", ("id", id), ("instrument", "C-07"), ("end", "1")))).Headers.Location!.OriginalString;
        Assert.StartsWith("/inspections/", shown, StringComparison.Ordinal);
        InspectionEntry entry = Assert.Single(server.Book.Current<InspectionEntry>());
        Assert.Equal(("C-07", "No tag can be read", "NU1"), (entry.Instrument, entry.Note, entry.By));
        // Answered twice it is not there any more; thrown away neither.
        Assert.Equal(HttpStatusCode.NotFound, (await nurse.Post("/capture", "/capture/held", ("id", id), ("instrument", "C-07"), ("end", "1"))).StatusCode);
        string other = kept.First(h => h.Id != id).Id;
        Assert.Equal("/capture", (await nurse.Post("/capture", "/capture/held", ("id", other), ("discard", "yes"))).Headers.Location?.OriginalString);
        Assert.Single(new HeldFolder(server.Folder).Of("NU1"));
        Assert.Equal(2, Directory.EnumerateFiles(Path.Combine(server.Folder, "web", "held")).Count());
    }

    [Fact]
    public async Task A_tag_that_contradicts_what_was_chosen_is_asked_with_both_answers_at_hand()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await Tagged(server);
        string held = (await nurse.Settled(await nurse.Upload(ChosenL02, await Photograph(TaggedPhotograph.Usual(17)), "x.png"))).Headers.Location!.OriginalString;
        string page = await nurse.Text(held);
        Assert.Contains("L-02 end 1 was chosen, but the tag 17 in the photograph stands for C-07 end 1", page, StringComparison.Ordinal);
        Assert.Contains("It is C-07 end 1", page, StringComparison.Ordinal);
        Assert.Contains("It is L-02 end 1", page, StringComparison.Ordinal);
        Assert.Empty(server.Book.Current<InspectionEntry>());
        await nurse.Settled(await nurse.Post(held, "/capture/held", ("id", held[^32..]), ("instrument", "C-07"), ("end", "1")));
        Assert.Equal("C-07", Assert.Single(server.Book.Current<InspectionEntry>()).Instrument);
        // The tag of what was chosen is no contradiction.
        Assert.StartsWith("/inspections/", (await nurse.Settled(await nurse.Upload("/capture/photograph?instrument=C-07&end=1", await Photograph(TaggedPhotograph.Usual(17, -3)), "x.png"))).Headers.Location!.OriginalString, StringComparison.Ordinal);
    }

    private static async Task<Visitor> Tagged(RunningServer server)
    {
        server.Book.Append(new EndTag { By = "LC1", Instrument = "C-07", End = 1, Number = 17 }, new EndTag { By = "LC1", Instrument = "L-02", End = 1, Number = 204 });
        return await server.SignedIn(Role.Nurse);
    }

    private static async Task<byte[]> Photograph(params TaggedPhotograph.Strip[] strips) =>
        TaggedPhotograph.Jpeg(await File.ReadAllBytesAsync(RunningServer.Demo("C-07/2025-01-10-face.jpg"), TestContext.Current.CancellationToken), InputFile.Card(null), strips);
}
