using System.Collections.Immutable;
using System.Data.Common;
using EdgeLens.Records.Inspections;
using EdgeLens.Store.Database;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Storage;

namespace EdgeLens.Store.Transfer;

/// <summary>All rows of a practice as of one moment, while others go on writing.</summary>
internal sealed class BookReading : IDisposable
{
    private readonly RecordBook _book;
    private readonly BookContext _context;
    private readonly IDbContextTransaction _snapshot;

    public BookReading(RecordBook book)
    {
        _book = book;
        _context = book.Database.Open(book.PracticeCode);
        _snapshot = book.Database.BeginSnapshot(_context);
    }

    /// <summary>Last step of the schema.</summary>
    public string Schema => _context.Database.GetAppliedMigrations().Last();

    /// <summary>The tables; a row's references point into tables before its own, or into its own.</summary>
    public IEnumerable<IEntityType> Tables => TablesOf(_context);

    /// <summary>SHA-256 of every photograph that a row names, once each, in order.</summary>
    public ImmutableArray<string> PhotographNames() =>
        [.. _context.Set<PhotographRow>().Where(p => _context.Set<InspectionEntry>().Any(i => i.Id == p.InspectionId)).Select(p => p.Sha256).Distinct().AsEnumerable().Order(StringComparer.Ordinal)];

    /// <summary>Rows of a table by their key.</summary>
    public IEnumerable<object?[]> Rows(IEntityType table, TableColumn[] columns)
    {
        ISqlGenerationHelper sql = _context.GetService<ISqlGenerationHelper>();
        string Named(string name) => sql.DelimitIdentifier(name);
        bool isEntry = table.FindProperty(BookContext.PracticeCode) is not null;
        using DbCommand command = _context.Database.GetDbConnection().CreateCommand();
        command.Transaction = _snapshot.GetDbTransaction();
        string own = isEntry
            ? $"{Named(BookContext.PracticeCode)} = @practice"
            : $"{Named("InspectionId")} IN (SELECT {Named("Id")} FROM {Named("Inspections")} WHERE {Named(BookContext.PracticeCode)} = @practice)";
        command.CommandText = $"SELECT {string.Join(", ", columns.Select(c => Named(c.Name)))} FROM {Named(table.GetTableName()!)} WHERE {own} ORDER BY {string.Join(", ", columns.Where(c => c.Property.IsPrimaryKey()).Select(c => Named(c.Name)))}";
        DbParameter practice = command.CreateParameter();
        practice.ParameterName = "@practice";
        practice.Value = _book.PracticeCode;
        command.Parameters.Add(practice);
        using DbDataReader reader = command.ExecuteReader();
        while (reader.Read())
        {
            object?[] row = new object?[columns.Length];
            for (int i = 0; i < row.Length; i++) row[i] = columns[i].Read(reader, i);
            yield return row;
        }
    }

    /// <summary>The tables of the model: entries first, inspections last of them, then what hangs on inspections.</summary>
    public static IEnumerable<IEntityType> TablesOf(BookContext context) =>
        context.Model.GetEntityTypes().OrderBy(t => t.ClrType == typeof(InspectionEntry) ? 1 : t.FindProperty("InspectionId") is null ? 0 : 2).ThenBy(t => t.GetTableName(), StringComparer.Ordinal);

    public void Dispose()
    {
        _snapshot.Dispose();
        _context.Dispose();
    }
}
