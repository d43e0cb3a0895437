using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Isolation;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Store;
using EdgeLens.Store.Opening;
using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using EdgeLens.WebTests;
using Microsoft.AspNetCore.Builder;

namespace EdgeLens.LoadBench;

/// <summary>What a phone waits for, with photographs of demo-images: from sending one to its verdict, alone and with nineteen others.</summary>
internal static class WebUploads
{
    private const string Pin = "482915";
    private const int Phones = 20, Sessions = 4;

    // As new and later; both 12-megapixel photographs of the set are among them.
    private static readonly (string Instrument, InstrumentFamily Family, string AsNew, string Later)[] Instruments =
    [
        ("C-07", InstrumentFamily.UniversalCurette, "C-07/2025-01-10-face.jpg", "C-07/2025-01-10-face.jpg"),
        ("S-03", InstrumentFamily.UniversalScaler, "S-03/2025-02-01-face.jpg", "S-03/2025-05-05-face.jpg"),
    ];

    /// <summary>One phone.</summary>
    public static async Task<int> Run()
    {
        await using Served served = await Served.Start();
        using Visitor nurse = await served.SignedIn();
        foreach ((string instrument, _, string asNew, _) in Instruments) await Upload(nurse, instrument, asNew, isAsNew: true);
        foreach ((string instrument, _, _, string later) in Instruments)
        {
            List<double> times = [];
            for (int i = 0; i < 15; i++) times.Add(await Upload(nurse, instrument, later, isAsNew: false));
            Console.WriteLine($"{later}: {Spread(times, "ms")} (in order: {string.Join(' ', times.Select(t => t.ToString("0", CultureInfo.InvariantCulture)))})");
        }
        return 0;
    }

    /// <summary>Twenty phones at once, and somebody who goes on looking at pages.</summary>
    public static async Task<int> RunPhones()
    {
        await using Served served = await Served.Start();
        // An address may try to sign in twenty times a minute: the phones share a few sessions, each sends over a connection of its own.
        Visitor[] phones = await Task.WhenAll(Enumerable.Range(0, Sessions).Select(_ => served.SignedIn()));
        foreach ((string instrument, _, string asNew, _) in Instruments) await Upload(phones[0], instrument, asNew, isAsNew: true);
        using CancellationTokenSource done = new();
        Task<List<double>> pages = Browse(await served.SignedIn(), done.Token);
        long start = Stopwatch.GetTimestamp();
        ConcurrentBag<double> taken = [], verdicts = [];
        await Task.WhenAll(Enumerable.Range(0, Phones).Select(i => Task.Run(async () =>
        {
            Visitor phone = phones[i % Sessions];
            (string instrument, _, _, string later) = Instruments[i % Instruments.Length];
            HttpResponseMessage sent = await Send(phone, instrument, later, isAsNew: false);
            taken.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            await Verdict(phone, sent);
            verdicts.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        })));
        done.Cancel();
        Console.WriteLine($"{Phones} phones: taken {Spread(taken, "ms")}; verdict {Spread(verdicts, "ms")}");
        Console.WriteLine($"pages meanwhile: {Spread(await pages, "ms")}");
        Console.WriteLine($"in the book: {served.Book.Current<InspectionEntry>().Count - Instruments.Length} of {Phones}");
        foreach (Visitor phone in phones) phone.Dispose();
        return served.Book.Current<InspectionEntry>().Count - Instruments.Length == Phones ? 0 : 1;
    }

    private static async Task<List<double>> Browse(Visitor visitor, CancellationToken done)
    {
        string[] paths = ["/capture", "/capture/photograph?instrument=C-07&end=1", "/inspections/1", "/inspections/1/picture", "/instrument?code=C-07", "/practice/work-list", "/web.css"];
        List<double> times = [];
        for (int i = 0; !done.IsCancellationRequested; i++)
        {
            long start = Stopwatch.GetTimestamp();
            (await visitor.Get(paths[i % paths.Length])).EnsureSuccessStatusCode();
            times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            // Two pages with their pictures a second, as a person makes.
            await Task.Delay(50, CancellationToken.None);
        }
        visitor.Dispose();
        return times;
    }

    private static async Task<double> Upload(Visitor visitor, string instrument, string photograph, bool isAsNew)
    {
        await visitor.Get(PageOf(instrument));
        // As long as it takes to lift the phone.
        await Task.Delay(2000);
        long start = Stopwatch.GetTimestamp();
        await Verdict(visitor, await Send(visitor, instrument, photograph, isAsNew));
        return Stopwatch.GetElapsedTime(start).TotalMilliseconds;
    }

    private static string PageOf(string instrument) => $"/capture/photograph?instrument={instrument}&end=1";

    private static async Task<HttpResponseMessage> Send(Visitor visitor, string instrument, string photograph, bool isAsNew) =>
        await visitor.Upload(PageOf(instrument), await File.ReadAllBytesAsync(Served.Demo(photograph)), "photo.jpg", isAsNew ? [("asnew", "yes")] : []);

    private static async Task Verdict(Visitor visitor, HttpResponseMessage sent)
    {
        HttpResponseMessage settled = await visitor.Settled(sent);
        if (settled.Headers.Location is not { } page) throw new InvalidOperationException("No verdict.");
        (await visitor.Get(page.OriginalString)).EnsureSuccessStatusCode();
        (await visitor.Get(page.OriginalString + "/picture")).EnsureSuccessStatusCode();
    }

    private static string Spread(IEnumerable<double> values, string unit)
    {
        double[] sorted = [.. values.Order()];
        return string.Create(CultureInfo.InvariantCulture, $"median {sorted[sorted.Length / 2]:0} {unit}, 95 % {sorted[(int)(sorted.Length * 0.95 - 1e-9)]:0} {unit}, longest {sorted[^1]:0} {unit} ({sorted.Length})");
    }

    /// <summary>The server as `edgelens serve` builds it, over a book of its own.</summary>
    private sealed class Served : IAsyncDisposable
    {
        private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("edgelens-load-");
        private readonly MeasuringProcesses _processes;
        private readonly WebApplication _app;

        private Served()
        {
            string folder = Path.Combine(_folder.FullName, "book");
            Book = BookFolder.Create(folder, "LOAD", null, TimeProvider.System);
            Book.Append((Entry[])[new Practice { By = "NU1", Name = "Load (invented)", Currency = "EUR", IsDemo = true }]);
            foreach ((string instrument, InstrumentFamily family, _, _) in Instruments)
                Book.Append(new Instrument { By = "NU1", Code = instrument }, new WorkingEnd { By = "NU1", Instrument = instrument, End = 1, Family = family });
            new StaffFile(folder).Set("NU1", Role.Nurse, Pin);
            _processes = new(["serve", "--book", folder, "--measuring"], MeasuringLimits.Default, Console.Error.WriteLine);
            _app = WebServer.Build(new()
            {
                Book = Book,
                BookFolder = folder,
                Policy = Policy.Default,
                Measure = _processes.Measure,
                Prepare = _processes.Prepare,
                ProgramVersion = "bench",
                Clock = TimeProvider.System,
                Say = Console.Error.WriteLine,
                Port = 0,
                RequestsAMinute = int.MaxValue,
            });
        }

        public RecordBook Book { get; }

        public static async Task<Served> Start()
        {
            Served served = new();
            await served._app.StartAsync();
            return served;
        }

        public async Task<Visitor> SignedIn()
        {
            Visitor visitor = new(new Uri(_app.Urls.Single()));
            HttpResponseMessage answer = await visitor.Post("/sign-in", "/sign-in", ("code", "NU1"), ("pin", Pin));
            return answer.Headers.Location?.OriginalString == "/" ? visitor : throw new InvalidOperationException($"Not signed in: {answer.StatusCode}.");
        }

        public static string Demo(string name)
        {
            for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
                if (File.Exists(Path.Combine(folder.FullName, "EdgeLens.sln"))) return Path.Combine(folder.FullName, "demo-images", name);
            throw new DirectoryNotFoundException("No EdgeLens.sln above the bench.");
        }

        public async ValueTask DisposeAsync()
        {
            await _app.StopAsync();
            await _app.DisposeAsync();
            _processes.Dispose();
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            _folder.Delete(recursive: true);
        }
    }
}
