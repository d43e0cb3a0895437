using EdgeLens.Tests.Commands;
using EdgeLens.Tests.HouseRules;
using Xunit;

namespace EdgeLens.Tests.Tags;

/// <summary>The commands that give and print tags, and a photograph filed by its tag, as typed.</summary>
public sealed class TagCommandTests
{
    [Fact]
    public void Tags_are_given_printed_taken_over_and_file_a_photograph()
    {
        using TestFolder folder = new();
        string book = folder.PathOf("book");
        ProgramRun Book(params string[] args) => ProgramRun.Of(["book", .. args, "--book", book, "--by", "MK"]);
        Assert.Equal(0, Book("init", "--name", "T").ExitCode);
        Assert.Equal(1, Book("tags", "--out", folder.PathOf("t.pdf")).ExitCode);
        Book("add", "instrument", "C-07", "--family", "universal-curette", "--ends", "2");
        Book("add", "instrument", "L-02", "--family", "luxator");
        Assert.Equal(0, Book("tag", "L-02", "--number", "17").ExitCode);
        ProgramRun tags = Book("tags", "--out", folder.PathOf("t.pdf"));
        Assert.Equal("tag 1: C-07 end 1\ntag 2: C-07 end 2\ntag 17: L-02 end 1\n", tags.Out);
        // Printed again they stay what they are.
        Assert.Equal(tags.Out, Book("tags", "--out", folder.PathOf("again.png")).Out);
        Assert.Contains("stands for L-02 end 1", Book("tag", "C-07", "--number", "17").Error, StringComparison.Ordinal);
        Assert.Equal(0, Book("tag", "C-07", "--number", "17", "--because", "the luxator is retired").ExitCode);

        string tagged = folder.PathOf("tagged.jpg"), plain = Path.Combine(Repository.PathOf("demo-images"), "C-07/2025-01-10-face.jpg");
        File.WriteAllBytes(tagged, TaggedPhotograph.Jpeg(File.ReadAllBytes(plain), CardDrawings.Cards.Default, TaggedPhotograph.Usual(17)));
        ProgramRun filed = Book("inspect", "--from-tag", tagged, "--as-new");
        Assert.True(filed.ExitCode == 0, filed.Error);
        Assert.StartsWith("C-07 end 1", filed.Out, StringComparison.Ordinal);
        ProgramRun none = Book("inspect", "--from-tag", plain);
        Assert.Equal(2, none.ExitCode);
        Assert.Contains("tag-missing", none.Error, StringComparison.Ordinal);
        Assert.Equal(1, Book("inspect", "--from-tag", tagged, "--end", "2").ExitCode);
        Assert.Equal(1, Book("inspect", "C-07", tagged, "--from-tag").ExitCode);
        Assert.Equal(1, Book("inspect", "C-07").ExitCode);
        Assert.Equal(3, Book("inspect", "--from-tag", folder.PathOf("none.jpg")).ExitCode);
        Assert.Equal(0, Book("export", folder.PathOf("export")).ExitCode);
        Assert.True(File.Exists(folder.PathOf("export/EndTags.csv")));
    }
}
