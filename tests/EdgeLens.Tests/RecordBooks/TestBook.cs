using System.Security.Cryptography;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Store;
using EdgeLens.Store.Opening;
using Npgsql;
using Xunit;

namespace EdgeLens.Tests.RecordBooks;

/// <summary>Kinds of database that every test of the book runs against.</summary>
public enum Server
{
    Sqlite,
    PostgreSql,
}

/// <summary>A book of its own for one test, on one kind of database, gone afterwards.</summary>
internal sealed class TestBook : IDisposable
{
    /// <summary>Set by tests/with-postgres.sh: a connection string to a server on which databases can be made.</summary>
    public const string ServerVariable = "EDGELENS_TEST_POSTGRES";

    private readonly string? _connection;
    private readonly string _folder;

    public TestBook(Server server)
    {
        if (server == Server.PostgreSql && Environment.GetEnvironmentVariable(ServerVariable) is null) Assert.Skip($"No PostgreSQL server: {ServerVariable} is not set. ./test.sh starts one.");
        _folder = Directory.CreateTempSubdirectory("edgelens-book").FullName;
        _connection = server == Server.PostgreSql ? NewDatabase(Path.GetFileName(_folder)) : null;
        Book = BookFolder.Create(Folder, "FL", _connection, Clock);
    }

    public RecordBook Book { get; }

    /// <summary>Stands at noon of a day, UTC.</summary>
    public static TimeProvider Clock { get; } = new StandingClock();

    public string Folder => Path.Combine(_folder, "book");

    public string Aside(string name) => Path.Combine(_folder, name);

    public RecordBook Reopen() => BookFolder.Open(Folder, _connection, Clock);

    /// <summary>A second, empty book on the same kind of database.</summary>
    public RecordBook Second(string name, string practice = "FL") =>
        BookFolder.Create(Aside(name), practice, _connection is null ? null : NewDatabase(Path.GetFileName(_folder) + name), Clock);

    /// <summary>A practice with one cassette and one curette in it.</summary>
    public TestBook WithCurette(string code = "C-07")
    {
        Book.Append(
            new Practice { By = "MK", Name = "Test practice", Currency = "EUR" },
            new Cassette { By = "MK", Code = "A", Name = "Cassette A" },
            new Instrument { By = "MK", Code = code, Price = 42.50m, PurchasedOn = new(2025, 1, 10) },
            new WorkingEnd { By = "MK", Instrument = code, End = 1, Family = InstrumentFamily.UniversalCurette, MakerLengthMm = 5.4 },
            new Placement { By = "MK", Instrument = code, Cassette = "A", Day = new(2025, 1, 10) });
        return this;
    }

    /// <summary>An inspection with made-up figures, and photographs that are only bytes: the book never looks into them.</summary>
    public static NewInspection Inspection(string instrument, DateOnly day, double widthLossPercent, params byte[][] photographs) => new(
        new InspectionEntry
        {
            By = "MK",
            Instrument = instrument,
            End = 1,
            Day = day,
            ProgramVersion = "0.1.0",
            PolicyName = "test",
            PolicyFingerprint = "0123456789ab",
            Verdict = VerdictKind.Keep,
            Headline = "Keep",
            Reasons = "r",
            NextSteps = "n",
            Origin = FigureOrigin.Photographs,
        },
        [
            new FigureRow { Position = 0, Name = InspectionFigures.JudgedWidthLossPercent, Unit = "%", Value = widthLossPercent, StandardUncertainty = 0.1 + 0.2, SharedStandardUncertainty = 1e-17 },
            new FigureRow { Position = 1, Name = "toeRadiusUm", Unit = "µm", WhyMissing = "not seen, \"truly\",\nnot" },
        ],
        [
            .. photographs.Select((bytes, i) => new NewPhotograph(
                new PhotographRow { Position = i, FileName = $"p{i}.jpg", Sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes)), View = PhotographView.Face, BarXMm = 40.02, HeightStandardUncertaintyMm = 1 / 3.0 }, bytes)),
        ],
        new InspectionDocument { JsonGzip = InspectionDocument.Pack("{ \"µ\": 1 }") });

    public void Dispose()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>Makes a database on the server. A server that is named and does not answer fails the test.</summary>
    private static string NewDatabase(string name)
    {
        string server = Environment.GetEnvironmentVariable(ServerVariable)!;
        string database = new([.. name.ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '_')]);
        using NpgsqlConnection connection = new(server);
        connection.Open();
        using NpgsqlCommand command = new($"CREATE DATABASE \"{database}\"", connection);
        command.ExecuteNonQuery();
        return new NpgsqlConnectionStringBuilder(server) { Database = database }.ConnectionString;
    }

    private sealed class StandingClock : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => new(2026, 3, 1, 12, 0, 0, TimeSpan.Zero);
    }
}
