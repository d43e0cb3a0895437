using System.Collections.Immutable;
using System.IO.Compression;
using EdgeLens.Records.Files;
using EdgeLens.Store.Database;
using EdgeLens.Store.Photographs;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;

namespace EdgeLens.Store.Transfer;

/// <summary>Writes all rows of a practice: as a folder of tables for people and other programs, or with all photographs as one backup file.</summary>
public static class BookExport
{
    /// <summary>Writes <c>manifest.json</c> and one file for each table.</summary>
    /// <param name="book">May be in use meanwhile: what is written is as of one moment.</param>
    /// <param name="folder">Made when it is not there; files of the same names are replaced.</param>
    /// <param name="format">Of the tables.</param>
    /// <param name="clock">For the manifest.</param>
    public static BookManifest ToFolder(RecordBook book, string folder, TableFormat format, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(clock);
        Directory.CreateDirectory(folder);
        using BookReading reading = new(book);
        BookManifest manifest = Tables(reading, book, format, clock, [], name => File.Create(Path.Combine(folder, name)));
        DurableFile.Write(Path.Combine(folder, BookManifest.FileName), manifest.ToJson());
        return manifest;
    }

    /// <summary>Writes rows and photographs, unaltered, as one ZIP file (CSV tables) that <see cref="BookImport.Restore"/> reads.</summary>
    /// <param name="book">May be in use meanwhile.</param>
    /// <param name="file">Written beside first and renamed when whole; an older one stays until then.</param>
    /// <param name="clock">For the manifest.</param>
    /// <exception cref="Records.Book.BookException">A photograph that a row names is not in the folder or is damaged: such a backup would be none.</exception>
    public static BookManifest Backup(RecordBook book, string file, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(clock);
        string part = file + WholeFile.PartSuffix;
        try
        {
            using BookReading reading = new(book);
            BookManifest manifest;
            using (FileStream stream = new(part, FileMode.Create, FileAccess.ReadWrite))
            {
                using (ZipArchive zip = new(stream, ZipArchiveMode.Create, leaveOpen: true))
                {
                    ImmutableArray<string> photographs = reading.PhotographNames();
                    manifest = Tables(reading, book, TableFormat.Csv, clock, photographs, name => zip.CreateEntry(name, CompressionLevel.Fastest).Open());
                    foreach (string sha256 in photographs)
                    {
                        if (!book.Folder.IsWhole(sha256)) throw new Records.Book.BookException($"The photograph {sha256} is missing or damaged; no backup was made. `book verify` lists all that is wrong.");
                        // Pictures are packed already.
                        using Stream target = zip.CreateEntry("photographs/" + sha256, CompressionLevel.NoCompression).Open();
                        using FileStream source = File.OpenRead(book.Folder.PathOf(sha256));
                        source.CopyTo(target);
                    }
                    using Stream head = zip.CreateEntry(BookManifest.FileName).Open();
                    head.Write(manifest.ToJson());
                }
                stream.Flush(flushToDisk: true);
            }
            File.Move(part, file, overwrite: true);
            WholeFile.SyncFolder(Path.GetDirectoryName(Path.GetFullPath(file))!);
            return manifest;
        }
        finally
        {
            File.Delete(part);
        }
    }

    private static BookManifest Tables(BookReading reading, RecordBook book, TableFormat format, TimeProvider clock, ImmutableArray<string> photographs, Func<string, Stream> create)
    {
        ImmutableSortedDictionary<string, long>.Builder counts = ImmutableSortedDictionary.CreateBuilder<string, long>(StringComparer.Ordinal);
        foreach (IEntityType table in reading.Tables)
        {
            TableColumn[] columns = TableColumn.Of(table);
            using Stream target = create($"{table.GetTableName()}.{TableFile.Extension(format)}");
            counts.Add(table.GetTableName()!, TableFile.Write(target, format, columns, reading.Rows(table, columns)));
        }
        return new(1, book.PracticeCode, reading.Schema, clock.GetUtcNow(), counts.ToImmutable(), photographs);
    }
}
