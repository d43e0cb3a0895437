using System.Diagnostics;
using System.Globalization;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Sharpening;
using EdgeLens.Store;
using EdgeLens.Store.Transfer;
using Xunit;

namespace EdgeLens.Tests.RecordBooks;

/// <summary>
/// A program that enters rows is killed at random moments (SIGKILL: nothing of it gets to tidy up), again and again on one book, and everything that it had
/// acknowledged must be there: each row with all its figures, each photograph with its bytes. A loss of power is not tried: that what was synced is on the disk is the
/// system's promise, and <see cref="BookTests.The_sqlite_file_syncs_its_log_at_every_commit"/> checks that we ask for it.
/// </summary>
public sealed class KillTests(ITestOutputHelper output)
{
    /// <summary>How many kills; a few in the usual run, 500 for the claim in docs/records.md.</summary>
    public const string CountVariable = "EDGELENS_KILLS";

    [Fact]
    public async Task Nothing_that_was_acknowledged_is_lost_when_the_program_is_killed()
    {
        int kills = int.Parse(Environment.GetEnvironmentVariable(CountVariable) ?? "4", CultureInfo.InvariantCulture);
        using TestBook test = new TestBook(Server.Sqlite).WithCurette();
        Random random = new(20261125);
        List<string> acknowledged = [];
        int early = 0;
        for (int kill = 0; kill < kills; kill++)
        {
            // Every fourth is killed at any moment from its start on (loading, opening the book), the others in the middle of their entries.
            string[] lines = await RunAndKill(test.Folder, 1000 * kill, kill % 4 == 3, random.Next(0, 400));
            if (lines.Length == 0) early++;
            acknowledged.AddRange(lines);
        }
        Assert.True(acknowledged.Count > kills / 2, $"Only {acknowledged.Count} rows were acknowledged: the test would prove nothing.");
        RecordBook book = test.Reopen();
        foreach (string line in acknowledged) AssertThere(book, line.Split(' '));
        BookCheckResult check = BookCheck.Run(book);
        Assert.True(check.IsSound, string.Join('\n', check.Complaints.Concat(check.Missing).Concat(check.Damaged)));
        string found = $"{kills} kills ({early} before the first entry), {acknowledged.Count} rows acknowledged and there, {check.Inspections} inspections, {check.Photographs} photographs whole, {check.Unnamed.Length} left without a row";
        output.WriteLine(found);
        TestContext.Current.SendDiagnosticMessage(found);
    }

    private static void AssertThere(RecordBook book, string[] said)
    {
        long id = long.Parse(said[1], CultureInfo.InvariantCulture);
        int value = int.Parse(said[2], CultureInfo.InvariantCulture);
        if (said[0] == "sharpening")
        {
            Assert.Equal(value, book.Find<SharpeningRow>(id)?.Strokes);
            return;
        }
        Assert.NotNull(book.Find<InspectionEntry>(id));
        Assert.Equal(Enumerable.Range(0, 30).Select(k => (double?)(value + k / 30.0)), book.Figures(id).Select(f => f.Value));
        Assert.Equal(said[3..], book.Photographs(id).Select(p => p.Sha256));
        Assert.All(said[3..], sha256 => Assert.True(book.Folder.IsWhole(sha256), sha256));
    }

    private static async Task<string[]> RunAndKill(string folder, int seed, bool atAnyMoment, int delayMs)
    {
        using Process victim = Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "EdgeLens.Crash.dll"), folder, seed.ToString(CultureInfo.InvariantCulture)])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        List<string> lines = [];
        if (!atAnyMoment)
        {
            string? first = await victim.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken);
            if (first is null) Assert.Fail("The victim ended by itself: " + await victim.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken));
            lines.Add(first);
        }
        await Task.Delay(atAnyMoment ? 3 * delayMs : delayMs, TestContext.Current.CancellationToken);
        victim.Kill();
        string rest = await victim.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await victim.WaitForExitAsync(TestContext.Current.CancellationToken);
        // A line that the kill cut short was not said.
        int whole = rest.LastIndexOf('\n') + 1;
        lines.AddRange(rest[..whole].Split('\n', StringSplitOptions.RemoveEmptyEntries));
        return [.. lines];
    }
}
