using System.Text.Json;
using Xunit;

namespace EdgeLens.Tests.Commands;

/// <summary>The commands on a book, from an empty folder to a restored copy, as a practice would type them.</summary>
public sealed class BookCommandTests
{
    [Fact]
    public void A_practice_is_entered_found_reviewed_reported_backed_up_and_restored()
    {
        using TestFolder folder = new();
        string book = folder.PathOf("book");
        ProgramRun Book(params string[] args)
        {
            ProgramRun run = ProgramRun.Of(["book", .. args, "--book", book, "--by", "mk", "--json"]);
            Assert.True(run.ExitCode == 0, $"{string.Join(' ', args)}: {run.Error}{run.Out}");
            return run;
        }

        Book("init", "--name", "Test practice", "--currency", "EUR");
        Book("add", "cassette", "A", "Cleaning");
        Book("add", "instrument", "C-07", "--family", "universal-curette", "--ends", "2", "--cassette", "A", "--price", "48.50", "--bought", "2025-01-10");
        Book("add", "stone", "S1", "ceramic, fine");
        Book("log", "procedure", "--cassette", "A", "--light", "3", "--heavy", "1", "--day", "2025-02-01");
        long sharpening = Book("log", "sharpening", "C-07", "--end", "2", "--stone", "S1", "--zone", "1", "--strokes", "5", "--day", "2025-02-02").Json.GetProperty("row").GetInt64();
        Book("log", "sharpening", "C-07", "--end", "2", "--strokes", "15", "--day", "2025-02-02", "--corrects", $"{sharpening}", "--because", "typing error");
        Book("log", "rod-test", "C-07", "bites", "--day", "2025-02-02");
        JsonElement[] ends = [.. Book("find", "c-07").Json.GetProperty("workingEnds").EnumerateArray()];
        Assert.Equal([1, 2], ends.Select(e => e.GetProperty("end").GetInt32()));
        Assert.All(ends, e => Assert.Equal("A", e.GetProperty("cassette").GetString()));
        Assert.Equal(2, Book("review", "--day", "2025-03-01").Json.GetProperty("items").GetArrayLength());
        string pdf = folder.PathOf("r.pdf"), html = folder.PathOf("r.html");
        Book("report", "instrument", "C-07", "--out", pdf, html);
        Book("report", "cassette", "A", "--out", folder.PathOf("a.pdf"), "--paper", "letter");
        Book("report", "work-list", "--out", folder.PathOf("w.pdf"));
        Assert.StartsWith("%PDF", File.ReadAllText(pdf)[..4], StringComparison.Ordinal);
        Assert.Contains("15 strokes", File.ReadAllText(html), StringComparison.Ordinal);
        Assert.DoesNotContain("5 strokes, ", File.ReadAllText(html), StringComparison.Ordinal);
        Book("backup", folder.PathOf("b.zip"));
        Book("export", folder.PathOf("export"), "--format", "json");
        Assert.Equal(0, ProgramRun.Of("book", "restore", folder.PathOf("b.zip"), folder.PathOf("restored")).ExitCode);
        Assert.Equal(0, ProgramRun.Of("book", "import", folder.PathOf("export"), "--book", folder.PathOf("imported")).ExitCode);
        foreach (string copy in (string[])["restored", "imported"])
        {
            ProgramRun found = ProgramRun.Of("book", "find", "--book", folder.PathOf(copy), "--json");
            Assert.Equal(Book("find").Out, found.Out);
            Assert.Equal(0, ProgramRun.Of("book", "verify", "--book", folder.PathOf(copy)).ExitCode);
        }
        Book("retire", "C-07", "--reason", "worn");
        Assert.Equal("retired", Book("find", "--state", "retired").Json.GetProperty("workingEnds")[0].GetProperty("state").GetString());
        Assert.Equal(0, Book("review").Json.GetProperty("items").GetArrayLength());
    }

    [Theory]
    [InlineData(1, "no instrument X-1", "log", "sharpening", "X-1")]
    [InlineData(1, "staff code", "log", "sharpening", "C-07", "--by", "Maria Keller")]
    [InlineData(1, "no day", "log", "rod-test", "C-07", "bites", "--day", "yesterday")]
    [InlineData(1, "--because", "log", "rod-test", "C-07", "bites", "--corrects", "1")]
    [InlineData(1, ".html or .pdf", "report", "practice", "--out", "x.doc")]
    [InlineData(1, "give its code", "report", "instrument", "--out", "x.pdf")]
    public void What_makes_no_sense_is_told_and_nothing_is_entered(int code, string expected, params string[] args)
    {
        using TestFolder folder = new();
        string book = folder.PathOf("book");
        Assert.Equal(0, ProgramRun.Of("book", "init", "--name", "T", "--book", book, "--by", "MK").ExitCode);
        string[] by = args.Contains("--by") ? [] : ["--by", "MK"];
        ProgramRun run = ProgramRun.Of(["book", .. args, "--book", book, .. by]);
        Assert.Equal(code, run.ExitCode);
        Assert.Contains(expected, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_without_a_book_is_a_file_error_with_what_to_do()
    {
        using TestFolder folder = new();
        ProgramRun run = ProgramRun.Of("book", "find", "--book", folder.Root);
        Assert.Equal(3, run.ExitCode);
        Assert.Contains("book init", run.Error, StringComparison.Ordinal);
    }
}
