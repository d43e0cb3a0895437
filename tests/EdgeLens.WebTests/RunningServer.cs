using System.Net;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Books;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Isolation;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Store;
using EdgeLens.Store.Opening;
using EdgeLens.Web.Capturing;
using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Builder;

namespace EdgeLens.WebTests;

/// <summary>The real server on a free port of this machine, with a small book of its own and the real pipeline behind it.</summary>
internal sealed class RunningServer : IAsyncDisposable
{
    public const string Pin = "482915";

    public static readonly (string Code, Role Role)[] Staff = [("NU1", Role.Nurse), ("LC1", Role.LeadClinician), ("MA1", Role.Manager)];

    private readonly MeasuringProcesses? _processes;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("edgelens-web-");

    private RunningServer(Func<IPAddress?, bool>? isThisMachine, MeasureCapture? measure, bool measureApart)
    {
        Folder = Path.Combine(_folder.FullName, "book");
        Book = BookFolder.Create(Folder, "TEST", null, TimeProvider.System);
        Book.Append((Entry[])
        [
            new Practice { By = "LC1", Name = "Fallow Lane Animal Clinic (invented)", Currency = "EUR", IsDemo = true },
            new Cassette { By = "LC1", Code = "K1", Name = "Prophy <1>" },
            new Instrument { By = "LC1", Code = "C-07", Description = "Curette & co" },
            new WorkingEnd { By = "LC1", Instrument = "C-07", End = 1, Family = InstrumentFamily.UniversalCurette },
            new Placement { By = "LC1", Instrument = "C-07", Day = new(2025, 1, 10), Cassette = "K1" },
            new Instrument { By = "LC1", Code = "L-02" },
            new WorkingEnd { By = "LC1", Instrument = "L-02", End = 1, Family = InstrumentFamily.Luxator },
        ]);
        StaffFile staff = new(Folder);
        foreach ((string code, Role role) in Staff) staff.Set(code, role, Pin);
        CaptureMeasurer measurer = new(Book, Policy.Default, new ViewReader(InputFile.Card(null), null, Policy.Default, Said.Add) { Registers = true }, null);
        if (measureApart) _processes = new(["serve", "--book", Folder, "--measuring"], MeasuringLimits.Default, Said.Add);
        App = WebServer.Build(new()
        {
            Book = Book,
            BookFolder = Folder,
            Policy = Policy.Default,
            Measure = measure ?? (_processes is null ? measurer.Measure : _processes.Measure),
            Prepare = _processes is null ? null : _processes.Prepare,
            Register = measurer.Register,
            ProgramVersion = "test",
            Clock = TimeProvider.System,
            Say = Said.Add,
            Port = 0,
            IsThisMachine = isThisMachine ?? IPAddressIsLoopback,
        });
    }

    public string Folder { get; }

    public RecordBook Book { get; }

    public WebApplication App { get; }

    public System.Collections.Concurrent.BlockingCollection<string> Said { get; } = [];

    public Uri Url => new(App.Urls.Single());

    public static async Task<RunningServer> Start(Func<IPAddress?, bool>? isThisMachine = null, MeasureCapture? measure = null, bool measureApart = false)
    {
        RunningServer server = new(isThisMachine, measure, measureApart);
        await server.App.StartAsync();
        return server;
    }

    public Visitor NewVisitor() => new(Url);

    public async Task<Visitor> SignedIn(Role role)
    {
        Visitor visitor = NewVisitor();
        HttpResponseMessage answer = await visitor.Post("/sign-in", "/sign-in", ("code", Staff.Single(s => s.Role == role).Code), ("pin", Pin));
        Xunit.Assert.Equal("/", answer.Headers.Location?.OriginalString);
        return visitor;
    }

    public static string Demo(string name)
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "EdgeLens.sln"))) return Path.Combine(folder.FullName, "demo-images", name);
        throw new DirectoryNotFoundException("No EdgeLens.sln above the tests.");
    }

    public async ValueTask DisposeAsync()
    {
        await App.StopAsync();
        await App.DisposeAsync();
        _processes?.Dispose();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        _folder.Delete(recursive: true);
    }

    private static bool IPAddressIsLoopback(IPAddress? address) => address is not null && IPAddress.IsLoopback(address);
}
