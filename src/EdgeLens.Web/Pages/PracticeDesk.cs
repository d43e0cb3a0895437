using EdgeLens.PracticeReports.Reports;
using EdgeLens.Records.Review;
using EdgeLens.Web.Serving;
using Microsoft.Extensions.Hosting;

namespace EdgeLens.Web.Pages;

/// <summary>
/// The practice review of today. Planning three hundred working ends takes most of a second: it is kept until something is entered into the book, by whatever process, and made anew
/// in the background soon after, so that who asks rarely waits.
/// </summary>
internal sealed class PracticeDesk(ServerSettings settings) : BackgroundService
{
    /// <summary>How often the book is asked for news: an answer costs it a few milliseconds, and whoever comes sooner has the review made at once.</summary>
    private static readonly TimeSpan LooksEvery = TimeSpan.FromSeconds(5);

    private readonly Lock _gate = new();
    private long _revision = -1;
    private PracticeReview? _kept;

    /// <summary>What reports are made from, today.</summary>
    public ReportSource Source => new(settings.Book, settings.Policy, DateOnly.FromDateTime(settings.Clock.GetLocalNow().DateTime), settings.ProgramVersion);

    /// <summary>As the book stands at this moment.</summary>
    public PracticeReview Review()
    {
        lock (_gate)
        {
            ReportSource source = Source;
            // Asked before the rows are read: what is entered meanwhile is read again next time, never overlooked.
            long revision = settings.Book.Revision;
            if (_kept is { } kept && kept.Day == source.Day && _revision == revision) return kept;
            (_kept, _revision) = (source.Review(), revision);
            return _kept;
        }
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using PeriodicTimer timer = new(LooksEvery, settings.Clock);
        do
        {
            try
            {
                await Task.Run(Review, stoppingToken);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                // Told once for each look; pages go on and say the same when they are asked for.
                settings.Say(e.Message);
            }
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }
}
