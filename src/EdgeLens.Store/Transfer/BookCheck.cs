using System.Collections.Immutable;
using System.Data.Common;
using System.IO.Compression;
using System.Text.Json;
using EdgeLens.Records.Inspections;
using EdgeLens.Store.Database;
using Microsoft.EntityFrameworkCore;

namespace EdgeLens.Store.Transfer;

/// <summary>What a check of a book found.</summary>
/// <param name="Inspections">Rows that were looked at.</param>
/// <param name="Photographs">Files that were read and hashed.</param>
/// <param name="Missing">SHA-256 of photographs that a row names and the folder does not have.</param>
/// <param name="Damaged">SHA-256 of photographs whose bytes are others by now.</param>
/// <param name="Unnamed">Photographs that no row names: harmless, left by an entry that was cut short before it was acknowledged.</param>
/// <param name="Complaints">About rows, in words.</param>
public sealed record BookCheckResult(int Inspections, int Photographs, ImmutableArray<string> Missing, ImmutableArray<string> Damaged, ImmutableArray<string> Unnamed, ImmutableArray<string> Complaints)
{
    /// <summary>True when nothing that was acknowledged is missing or damaged.</summary>
    public bool IsSound => Missing.IsEmpty && Damaged.IsEmpty && Complaints.IsEmpty;
}

/// <summary>Checks that everything that was acknowledged is there and as it was.</summary>
public static class BookCheck
{
    /// <summary>Reads every row and every photograph.</summary>
    public static BookCheckResult Run(RecordBook book)
    {
        ArgumentNullException.ThrowIfNull(book);
        ImmutableArray<string> named;
        using (BookReading reading = new(book)) named = reading.PhotographNames();
        string[] missing = [.. named.Where(p => !book.Folder.Has(p))];
        string[] damaged = [.. named.Except(missing).Where(p => !book.Folder.IsWhole(p))];
        using BookContext context = book.Database.Open(book.PracticeCode);
        List<string> complaints = [.. Documents(context)];
        if (book.Database.IsSqlite) complaints.AddRange(SqliteComplaints(context));
        return new(
            context.Set<InspectionEntry>().Count(), named.Length, [.. missing], [.. damaged], [.. book.Folder.All().Except(named, StringComparer.Ordinal)], [.. complaints]);
    }

    private static IEnumerable<string> Documents(BookContext context)
    {
        foreach (long id in context.Set<InspectionEntry>().Where(i => !i.IsWithdrawal && !context.Set<InspectionDocument>().Any(d => d.InspectionId == i.Id)).Select(i => i.Id).ToList())
            yield return $"Inspection {id} has no document.";
        foreach (InspectionDocument document in context.Set<InspectionDocument>().AsNoTracking().Where(d => context.Set<InspectionEntry>().Any(i => i.Id == d.InspectionId)))
            if (document.JsonGzip.Length > 0 && !IsJson(document.JsonGzip)) yield return $"The document of inspection {document.InspectionId} is damaged.";
    }

    private static bool IsJson(byte[] gzip)
    {
        try
        {
            using GZipStream stream = new(new MemoryStream(gzip), CompressionMode.Decompress);
            using JsonDocument _ = JsonDocument.Parse(stream);
            return true;
        }
        catch (Exception e) when (e is InvalidDataException or JsonException)
        {
            return false;
        }
    }

    private static IEnumerable<string> SqliteComplaints(BookContext context)
    {
        context.Database.OpenConnection();
        foreach (string pragma in (string[])["integrity_check", "foreign_key_check"])
        {
            using DbCommand command = context.Database.GetDbConnection().CreateCommand();
            command.CommandText = $"PRAGMA {pragma}";
            using DbDataReader reader = command.ExecuteReader();
            while (reader.Read())
                if (reader.GetValue(0) is not "ok") yield return $"{pragma}: {reader.GetValue(0)}";
        }
    }
}
