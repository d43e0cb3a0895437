using EdgeLens.Cli.Files;
using EdgeLens.Cli.Rim;
using Xunit;

namespace EdgeLens.Tests.Commands;

public sealed class AtomicFileTests
{
    [Fact]
    public void A_write_that_fails_half_way_leaves_the_old_file_and_nothing_else()
    {
        using TestFolder folder = new();
        string path = folder.Write("report.html", "old");

        RimException failure = Assert.Throws<RimException>(() => AtomicFile.Write(path, stream =>
        {
            stream.Write(new byte[100_000]);
            throw new IOException("No space left on device");
        }));

        Assert.Equal(ExitCode.File, failure.Code);
        Assert.Contains("No space left", failure.Message, StringComparison.Ordinal);
        Assert.Equal("old", File.ReadAllText(path));
        Assert.Equal(["report.html"], folder.Files());
    }

    [Fact]
    public void A_mistake_of_ours_is_not_told_as_one_of_the_disk()
    {
        using TestFolder folder = new();

        Assert.Throws<InvalidOperationException>(() => AtomicFile.Write(folder.PathOf("report.html"), _ => throw new InvalidOperationException()));

        Assert.Empty(folder.Files());
    }

    [Fact]
    public void While_it_is_written_the_old_file_is_read_whole()
    {
        using TestFolder folder = new();
        string path = folder.Write("report.html", "old");

        AtomicFile.Write(path, stream =>
        {
            stream.Write("new"u8);
            stream.Flush();
            Assert.Equal("old", File.ReadAllText(path));
        });

        Assert.Equal("new", File.ReadAllText(path));
        Assert.Equal(["report.html"], folder.Files());
    }

    [Theory]
    [InlineData("")]
    [InlineData("a\0b")]
    public void A_path_that_is_none_is_told_as_such(string path) => Assert.Equal(ExitCode.File, Assert.Throws<RimException>(() => AtomicFile.Write(path, "text")).Code);
}
