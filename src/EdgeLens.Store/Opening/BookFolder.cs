using System.Text.Json;
using EdgeLens.Records.Book;
using EdgeLens.Store.Database;
using EdgeLens.Store.Photographs;

namespace EdgeLens.Store.Opening;

/// <summary>A book on the disk: a folder with <c>book.json</c>, <c>photographs</c>, and <c>records.db</c> unless the rows are on a PostgreSQL server.</summary>
public static class BookFolder
{
    /// <summary>Says which practice and which kind of database; holds no password.</summary>
    public const string SettingsFile = "book.json";

    /// <summary>The SQLite file.</summary>
    public const string DatabaseFile = "records.db";

    /// <summary>The folder of photographs.</summary>
    public const string PhotographsFolder = "photographs";

    /// <summary>Makes an empty book.</summary>
    /// <param name="folder">Must be empty, or not there.</param>
    /// <param name="practiceCode">Tells practices apart that share a database.</param>
    /// <param name="connectionString">Of PostgreSQL; null for SQLite.</param>
    /// <param name="clock">For the times of entry.</param>
    /// <exception cref="BookException">The folder holds something, or the database cannot be used.</exception>
    public static RecordBook Create(string folder, string practiceCode, string? connectionString, TimeProvider clock)
    {
        if (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any()) throw new BookException($"{folder} is not empty. A new book needs a folder of its own.");
        Directory.CreateDirectory(Path.Combine(folder, PhotographsFolder));
        RecordBook book = Open(folder, new(1, practiceCode, connectionString is null ? "sqlite" : "postgresql"), connectionString, clock);
        if (book.History<Records.Practices.Practice>().Count > 0) throw new BookException($"The database holds a practice {practiceCode} already. Choose another code.");
        DurableFile.Write(Path.Combine(folder, SettingsFile), JsonSerializer.SerializeToUtf8Bytes(new Settings(1, practiceCode, connectionString is null ? "sqlite" : "postgresql"), Written));
        return book;
    }

    /// <summary>Opens a book and brings its schema up to this program's.</summary>
    /// <param name="folder">That holds it.</param>
    /// <param name="connectionString">Of PostgreSQL, for a book whose rows are there; else ignored.</param>
    /// <param name="clock">For the times of entry.</param>
    /// <exception cref="BookException">It is no book, its database cannot be used, or a newer program wrote it.</exception>
    public static RecordBook Open(string folder, string? connectionString, TimeProvider clock)
    {
        string path = Path.Combine(folder, SettingsFile);
        if (!File.Exists(path)) throw new BookException($"{folder} is no book: there is no {SettingsFile} in it. `book init` makes one.");
        Settings settings;
        try
        {
            settings = JsonSerializer.Deserialize<Settings>(File.ReadAllBytes(path), Written) ?? throw new JsonException("it is empty");
        }
        catch (JsonException e)
        {
            throw new BookException($"{path} cannot be read: {e.Message}", e);
        }
        if (settings.SchemaVersion != 1) throw new BookException($"{path} was written by a newer EdgeLens. Use that version.");
        return Open(folder, settings, connectionString, clock);
    }

    private static RecordBook Open(string folder, Settings settings, string? connectionString, TimeProvider clock)
    {
        BookDatabase database = settings.Database switch
        {
            "sqlite" => BookDatabase.Sqlite(Path.Combine(folder, DatabaseFile)),
            "postgresql" => BookDatabase.PostgreSql(connectionString ?? throw new BookException("This book's rows are on a PostgreSQL server: say where (docs/records.md).")),
            _ => throw new BookException($"{SettingsFile} names an unknown kind of database: {settings.Database}."),
        };
        try
        {
            database.Migrate();
        }
        catch (System.Data.Common.DbException e)
        {
            throw new BookException($"The database of {folder} cannot be used: {e.Message}", e);
        }
        return new(database, new(Path.Combine(folder, PhotographsFolder)), settings.PracticeCode, clock);
    }

    private static readonly JsonSerializerOptions Written = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true };

    private sealed record Settings(int SchemaVersion, string PracticeCode, string Database);
}
