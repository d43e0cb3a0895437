using System.Globalization;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Books;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Isolation;
using EdgeLens.Records.Instruments;
using EdgeLens.Web.Capturing;
using Xunit;

namespace EdgeLens.WebTests;

/// <summary>Measuring in processes of their own: the same answer as without, and an end to what takes too long, too much or crashes.</summary>
public sealed class IsolationTests
{
    [Fact]
    public async Task A_measuring_process_finds_the_same_to_the_last_bit()
    {
        await using RunningServer server = await RunningServer.Start();
        CaptureRequest request = Request(server, "C-07/2025-06-20-face.jpg");
        using MeasuringProcesses processes = new(Arguments(server), MeasuringLimits.Default, server.Said.Add);
        CaptureOutcome apart = processes.Measure(request);
        CaptureOutcome here = new CaptureMeasurer(server.Book, Policy.Default, new ViewReader(InputFile.Card(null), null, Policy.Default, server.Said.Add) { Registers = true }, null).Measure(request);
        Assert.NotNull(here.Found);
        Assert.Equal(WorkerLine.Of(here), WorkerLine.Of(apart));
        Assert.Equal(here.Found.Figures, apart.Found!.Figures);
        Assert.Empty(server.Said);
    }

    [Fact]
    public async Task What_takes_too_long_or_too_much_is_ended_told_and_the_next_is_measured()
    {
        await using RunningServer server = await RunningServer.Start();
        CaptureRequest request = Request(server, "C-07/2025-06-20-face.jpg");
        // No process answers within no time, and none fits into no memory.
        using (MeasuringProcesses hasty = new(Arguments(server), new() { ProcessorTime = TimeSpan.Zero, LooksEvery = TimeSpan.FromMilliseconds(1) }, server.Said.Add))
            Assert.Equal("measuring-too-long", hasty.Measure(request).Refusal?.Code);
        using (MeasuringProcesses hanging = new(Arguments(server), new() { Time = TimeSpan.Zero, LooksEvery = TimeSpan.FromMilliseconds(1) }, server.Said.Add))
            Assert.Equal("measuring-too-long", hanging.Measure(request).Refusal?.Code);
        using (MeasuringProcesses narrow = new(Arguments(server), new() { MemoryBytes = 1, LooksEvery = TimeSpan.FromMilliseconds(1) }, server.Said.Add))
            Assert.Equal("measuring-too-large", narrow.Measure(request).Refusal?.Code);
        Assert.Equal(3, server.Said.Count);
        using MeasuringProcesses usual = new(Arguments(server), MeasuringLimits.Default, server.Said.Add);
        Assert.NotNull(usual.Measure(request).Found);
    }

    [Fact]
    public async Task A_process_that_ends_by_itself_is_a_refusal()
    {
        await using RunningServer server = await RunningServer.Start();
        using MeasuringProcesses none = new(["serve", "--book", server.Folder + "-that-is-not-there", "--measuring"], MeasuringLimits.Default, server.Said.Add);
        Assert.Equal("measuring-ended", none.Measure(Request(server, "C-07/2025-06-20-face.jpg")).Refusal?.Code);
    }

    private static string[] Arguments(RunningServer server) => ["serve", "--book", server.Folder, "--measuring"];

    private static CaptureRequest Request(RunningServer server, string photograph)
    {
        // As an upload lies there: without an ending.
        string path = Path.Combine(server.Folder, "upload");
        File.Copy(RunningServer.Demo(photograph), path, overwrite: true);
        WorkingEnd end = server.Book.CurrentOf<WorkingEnd>("C-07").Single();
        return new(end, "NU1", path, "20250620-101500-0000.jpg", DateTime.Parse("2025-06-20T10:15:00", CultureInfo.InvariantCulture), "µ \"quoted\"\nline", false);
    }
}
