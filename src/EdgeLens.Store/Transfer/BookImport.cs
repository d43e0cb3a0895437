using System.IO.Compression;
using System.Text.Json;
using EdgeLens.Records.Book;
using EdgeLens.Records.Entries;
using EdgeLens.Store.Database;
using EdgeLens.Store.Opening;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Storage;

namespace EdgeLens.Store.Transfer;

/// <summary>Reads what <see cref="BookExport"/> wrote, in one transaction: all of it or nothing.</summary>
public static class BookImport
{
    /// <summary>Reads the tables of an export into a book that has no rows yet.</summary>
    /// <param name="book">Empty; its practice's code takes the place of the exported one.</param>
    /// <param name="folder">With a manifest and tables, CSV or JSON.</param>
    /// <exception cref="BookException">The book has rows, the export is not whole, or is of a newer program.</exception>
    public static BookManifest FromFolder(RecordBook book, string folder)
    {
        ArgumentNullException.ThrowIfNull(book);
        string head = Path.Combine(folder, BookManifest.FileName);
        if (!File.Exists(head)) throw new BookException($"{folder} is no export: there is no {BookManifest.FileName} in it.");
        BookManifest manifest = Manifest(File.ReadAllBytes(head));
        Rows(book, manifest, name => Enum.GetValues<TableFormat>()
            .Select(f => (Format: f, Path: Path.Combine(folder, $"{name}.{TableFile.Extension(f)}")))
            .Where(t => File.Exists(t.Path)).Select(t => ((Stream, TableFormat)?)(File.OpenRead(t.Path), t.Format)).FirstOrDefault());
        return manifest;
    }

    /// <summary>Makes a new book from a backup.</summary>
    /// <param name="file">That <see cref="BookExport.Backup"/> wrote.</param>
    /// <param name="folder">Empty, or not there.</param>
    /// <param name="connectionString">Of PostgreSQL; null for SQLite.</param>
    /// <param name="clock">For the times of later entries.</param>
    /// <exception cref="BookException">The backup is not whole, or the folder holds something.</exception>
    public static RecordBook Restore(string file, string folder, string? connectionString, TimeProvider clock)
    {
        try
        {
            using ZipArchive zip = ZipFile.OpenRead(file);
            ZipArchiveEntry head = zip.GetEntry(BookManifest.FileName) ?? throw new BookException($"{file} is no backup: there is no {BookManifest.FileName} in it.");
            BookManifest manifest = Manifest(Bytes(head));
            RecordBook book = BookFolder.Create(folder, manifest.Practice, connectionString, clock);
            foreach (string sha256 in manifest.Photographs)
            {
                byte[] bytes = Bytes(zip.GetEntry("photographs/" + sha256) ?? throw new BookException($"{file}: the photograph {sha256} is missing in the backup."));
                if (book.Folder.Keep(bytes) != sha256) throw new BookException($"{file}: the photograph {sha256} is damaged in the backup.");
            }
            Rows(book, manifest, name => zip.GetEntry($"{name}.csv") is { } entry ? (entry.Open(), TableFormat.Csv) : null);
            return book;
        }
        catch (InvalidDataException e)
        {
            throw new BookException($"{file} is no backup, or it is damaged: {e.Message}", e);
        }
    }

    private static byte[] Bytes(ZipArchiveEntry entry)
    {
        using Stream source = entry.Open();
        using MemoryStream target = new();
        source.CopyTo(target);
        return target.ToArray();
    }

    private static BookManifest Manifest(byte[] utf8)
    {
        try
        {
            return BookManifest.FromJson(utf8);
        }
        catch (JsonException e)
        {
            throw new BookException($"{BookManifest.FileName} cannot be read: {e.Message}", e);
        }
    }

    private static void Rows(RecordBook book, BookManifest manifest, Func<string, (Stream, TableFormat)?> open)
    {
        using BookContext context = book.Database.Open(book.PracticeCode);
        string[] known = [.. context.Database.GetMigrations()];
        if (manifest.SchemaVersion != 1 || !known.Contains(manifest.Schema))
            throw new BookException($"These tables were written by a newer EdgeLens (schema {manifest.Schema}). Use that version.");
        using IDbContextTransaction transaction = book.Database.BeginWriting(context, book.PracticeCode);
        IEntityType[] tables = [.. BookReading.TablesOf(context)];
        long shift = tables.Where(t => t.ClrType.IsSubclassOf(typeof(Entry))).Max(t => RowIds.Greatest(context, t));
        if (tables.Any(t => t.ClrType.IsSubclassOf(typeof(Entry)) && RowIds.HasOwn(context, t, book.PracticeCode))) throw new BookException("The book has rows already: import into a new one.");
        foreach (IEntityType table in tables)
        {
            string name = table.GetTableName()!;
            // An older program had fewer tables; one of this schema that lacks one is not whole.
            if (manifest.Schema != known[^1] && !manifest.Tables.ContainsKey(name)) continue;
            if (open(name) is not var (stream, format)) throw new BookException($"The table {name} is missing.");
            long expected = manifest.Tables.GetValueOrDefault(name), written = Copy(context, table, TableFile.Read(stream, format), book.PracticeCode, shift, name);
            if (written != expected) throw new BookException($"The table {name} should have {expected} rows and has {written}.");
        }
        RowIds.ContinueAfterImport(context, tables, book.Database.IsSqlite);
        transaction.Commit();
    }

    private static long Copy(BookContext context, IEntityType table, IEnumerable<IReadOnlyDictionary<string, string?>> rows, string practice, long shift, string name)
    {
        using RowWriter writer = new(context, table);
        object?[] values = new object?[writer.Columns.Length];
        long count = 0;
        try
        {
            foreach (IReadOnlyDictionary<string, string?> row in rows)
            {
                for (int i = 0; i < values.Length; i++)
                {
                    TableColumn column = writer.Columns[i];
                    object? value = row.TryGetValue(column.Name, out string? text) && text is not null ? ValueText.Read(text, column.StoredType) : null;
                    values[i] = column.Name == BookContext.PracticeCode ? practice : column.IsRowId && value is long id ? id + shift : value;
                }
                writer.Write(values);
                count++;
            }
        }
        catch (Exception e) when (e is FormatException or OverflowException or JsonException or System.Data.Common.DbException)
        {
            throw new BookException($"The table {name} cannot be read (row {count + 1}): {e.Message}", e);
        }
        return count;
    }
}
