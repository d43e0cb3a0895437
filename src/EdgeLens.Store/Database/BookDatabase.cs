using System.Data;
using System.Data.Common;
using EdgeLens.Records.Book;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.EntityFrameworkCore.Storage;

namespace EdgeLens.Store.Database;

/// <summary>Where the rows are: a SQLite file or a PostgreSQL database.</summary>
internal sealed class BookDatabase
{
    private readonly DbContextOptions<BookContext> _options;

    private BookDatabase(DbContextOptions<BookContext> options, bool isSqlite) => (_options, IsSqlite) = (options, isSqlite);

    public bool IsSqlite { get; }

    /// <summary>A file; made by <see cref="Migrate"/> when it is not there.</summary>
    public static BookDatabase Sqlite(string path)
    {
        SqliteConnectionStringBuilder connection = new() { DataSource = path, Mode = SqliteOpenMode.ReadWriteCreate, ForeignKeys = true, DefaultTimeout = 30 };
        return new(new DbContextOptionsBuilder<BookContext>().UseSqlite(connection.ConnectionString).AddInterceptors(new DurableSqlite()).Options, isSqlite: true);
    }

    /// <summary>A database on a server; its schema is made by <see cref="Migrate"/>.</summary>
    public static BookDatabase PostgreSql(string connectionString) => new(
        new DbContextOptionsBuilder<BookContext>().UseNpgsql(connectionString)
            // The snapshot of the model is that of SQLite (DEVELOPERS.md); a test holds the tables on the server against the model instead.
            .ConfigureWarnings(w => w.Ignore(RelationalEventId.PendingModelChangesWarning)).Options,
        isSqlite: false);

    /// <summary>A short-lived view of the rows of one practice, owned by the caller.</summary>
    public BookContext Open(string practice) => new(_options, practice);

    /// <summary>Brings the schema up to this program's, each step in a transaction.</summary>
    /// <exception cref="BookException">A newer program has been here.</exception>
    public void Migrate()
    {
        using BookContext context = Open("");
        string[] known = [.. context.Database.GetMigrations()];
        string[] applied = [.. context.Database.GetAppliedMigrations()];
        if (applied.Except(known, StringComparer.Ordinal).FirstOrDefault() is { } stranger)
            throw new BookException($"This book was written by a newer EdgeLens (schema {stranger}; this program knows {known[^1]}). Use that version.");
        if (applied.Length < known.Length) context.Database.Migrate();
    }

    /// <summary>Begins to write. Writers of a practice wait for each other, so that what the rules have checked still holds when it is committed.</summary>
    public IDbContextTransaction BeginWriting(BookContext context, string practice)
    {
        // SQLite: BEGIN IMMEDIATE, one writer for the file.
        IDbContextTransaction transaction = context.Database.BeginTransaction();
        if (!IsSqlite) context.Database.ExecuteSql($"SELECT pg_advisory_xact_lock(hashtext({practice}))");
        return transaction;
    }

    /// <summary>Begins to read everything as of one moment, while others write.</summary>
    public IDbContextTransaction BeginSnapshot(BookContext context)
    {
        if (!IsSqlite) return context.Database.BeginTransaction(IsolationLevel.RepeatableRead);
        context.Database.OpenConnection();
        SqliteConnection connection = (SqliteConnection)context.Database.GetDbConnection();
        return context.Database.UseTransaction(connection.BeginTransaction(deferred: true))!;
    }

    /// <summary>
    /// Each commit is on the disk before it is acknowledged: write-ahead log, synced at every commit (SQLite, "PRAGMA synchronous": in WAL mode only FULL makes a
    /// commit survive a loss of power). PostgreSQL does the same unless its administrator turned synchronous_commit off.
    /// </summary>
    private sealed class DurableSqlite : DbConnectionInterceptor
    {
        public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
        {
            using DbCommand command = connection.CreateCommand();
            command.CommandText = "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;";
            command.ExecuteNonQuery();
        }
    }
}
