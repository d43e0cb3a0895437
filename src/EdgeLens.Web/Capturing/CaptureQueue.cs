using System.Collections.Concurrent;
using System.Threading.Channels;
using EdgeLens.Geometry.Figures;
using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using Microsoft.Extensions.Hosting;

namespace EdgeLens.Web.Capturing;

/// <summary>
/// Uploads wait here, in the order they came, until one of few workers is free: decoding takes up to some 200 MB and a whole core, so twenty at once would stop the pages.
/// What is measured is in the book before its job is done.
/// </summary>
internal sealed class CaptureQueue(
    MeasureCapture measure, PrepareCapture? prepare, IRecordBook book, KeptPages pages, HeldFolder held, TimeProvider clock, Action<string> complain) : BackgroundService
{
    /// <summary>Uploads that may wait. Twice the twenty phones of a large practice; at a second each the last waits under a minute.</summary>
    public const int Capacity = 40;

    /// <summary>Working ends that are made ready for while nothing waits: as many phones may be about to photograph.</summary>
    private const int MostExpected = 20;

    /// <summary>How long what came of an upload can be asked for.</summary>
    private static readonly TimeSpan KeptFor = TimeSpan.FromHours(1);

    private readonly Channel<CaptureJob> _waiting = Channel.CreateBounded<CaptureJob>(Capacity);

    // Who goes on without photographing is overtaken by who comes later.
    private readonly Channel<WorkingEnd> _expected = Channel.CreateBounded<WorkingEnd>(new BoundedChannelOptions(MostExpected) { FullMode = BoundedChannelFullMode.DropOldest });
    private readonly ConcurrentDictionary<string, CaptureJob> _jobs = [];
    private long _entered;
    private long _taken;

    /// <summary>Half of the cores measure, the other half answers.</summary>
    public static int Workers => Math.Max(1, Environment.ProcessorCount / 2);

    /// <summary>Puts an upload at the end; null when the queue is full.</summary>
    /// <param name="request">The upload.</param>
    /// <param name="sentId">See <see cref="CaptureJob.SentId"/>.</param>
    public CaptureJob? Enter(CaptureRequest request, string? sentId = null)
    {
        foreach (CaptureJob old in _jobs.Values.Where(j => j.Done.Task.IsCompleted && clock.GetUtcNow() - j.EnteredAt > KeptFor)) _jobs.TryRemove(old.Id, out _);
        lock (_jobs)
        {
            CaptureJob job = new(_entered + 1, request, clock.GetUtcNow()) { SentId = sentId };
            if (!_waiting.Writer.TryWrite(job)) return null;
            _entered++;
            _jobs[job.Id] = job;
            return job;
        }
    }

    /// <summary>A working end is about to be photographed: as soon as nothing waits, what its photograph is compared with is measured.</summary>
    public void Expect(WorkingEnd end)
    {
        if (prepare is not null) _expected.Writer.TryWrite(end);
    }

    /// <summary>What became of what a device sent under an id of its own; null: it is not known (any more).</summary>
    public CaptureJob? FindSent(string sentId, string by) => _jobs.Values.Where(j => j.SentId == sentId && j.Request.By == by).MaxBy(j => j.Number);

    public CaptureJob? Find(string id) => _jobs.GetValueOrDefault(id);

    /// <summary>Uploads before this one; 0: it is being measured.</summary>
    public long Ahead(CaptureJob job) => Math.Max(0, job.Number - Interlocked.Read(ref _taken));

    protected override Task ExecuteAsync(CancellationToken stoppingToken)
    {
        // Also runs everything once before the first photograph comes.
        foreach (EndInUse end in book.EndsInUse().Take(MostExpected)) Expect(end.End);
        return Task.WhenAll(Enumerable.Range(0, Workers).Select(_ => Task.Run(() => Work(stoppingToken), stoppingToken)));
    }

    private async Task Work(CancellationToken stopping)
    {
        while (!stopping.IsCancellationRequested)
        {
            if (_waiting.Reader.TryRead(out CaptureJob? job))
            {
                Interlocked.Increment(ref _taken);
                CaptureResult result = Measured(job.Request);
                if (result.HeldId is null) Forget(job.Request.Path);
                job.Done.SetResult(result);
            }
            else if (_expected.Reader.TryRead(out WorkingEnd? end)) Prepare(end);
            else await Task.WhenAny(_waiting.Reader.WaitToReadAsync(stopping).AsTask(), _expected.Reader.WaitToReadAsync(stopping).AsTask());
        }
    }

    private void Prepare(WorkingEnd end)
    {
        try
        {
            prepare!(end);
        }
        catch (Exception e)
        {
            complain(e.ToString());
        }
    }

    private CaptureResult Measured(CaptureRequest request)
    {
        try
        {
            CaptureOutcome outcome = measure(request);
            if (outcome.EnteredAs is { } there) return new(there, null) { Tag = outcome.Tag };
            if (outcome is { IsQuestion: true, Refusal: { } question }) return new(null, question) { HeldId = held.Keep(request, question, outcome.Offered) };
            if (outcome.Found is not { } found) return new(null, outcome.Refusal ?? throw new InvalidOperationException("Neither found nor refused."));
            InspectionEntry entered = book.Append(found);
            pages.Keep(entered.Id, outcome.PictureSvg, outcome.ReportHtml);
            if (outcome.Registered is { } registered) pages.Keep(entered.Id, registered);
            if (outcome.SharpeningText is { } text) pages.KeepSharpening(entered.Id, text);
            return new(entered.Id, null) { Tag = outcome.Tag };
        }
        catch (Exception e)
        {
            // The rim of a worker: a mistake of ours in one photograph is told and must not stop those behind it.
            complain(e.ToString());
            // What could not be entered (a full disk, a database that does not answer) is kept, to be tried again.
            Refusal refusal = new("program-broke-down", Texts.BrokeDown, Texts.BrokeDownAdvice);
            return new(null, refusal) { HeldId = File.Exists(request.Path) ? held.Keep(request, refusal, request.End is { } end ? [end] : []) : null };
        }
    }

    private void Forget(string path)
    {
        if (held.Holds(path)) held.Remove(Path.GetFileName(path));
        else File.Delete(path);
    }
}
