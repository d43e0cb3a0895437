using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Storage;

namespace EdgeLens.Store.Database;

/// <summary>Writes rows of one table by one prepared command: several times faster than change tracking, for figures and for import.</summary>
internal sealed class RowWriter : IDisposable
{
    private readonly DbCommand _command;

    /// <summary>Prepares the command in the context's transaction.</summary>
    public RowWriter(BookContext context, IEntityType type)
    {
        Columns = TableColumn.Of(type);
        ISqlGenerationHelper sql = context.GetService<ISqlGenerationHelper>();
        _command = context.Database.GetDbConnection().CreateCommand();
        _command.Transaction = context.Database.CurrentTransaction?.GetDbTransaction();
        _command.CommandText =
            $"INSERT INTO {sql.DelimitIdentifier(type.GetTableName()!)} ({string.Join(", ", Columns.Select(c => sql.DelimitIdentifier(c.Name)))}) VALUES ({string.Join(", ", Columns.Select((_, i) => $"@p{i}"))})";
        for (int i = 0; i < Columns.Length; i++) _command.Parameters.Add(Columns[i].Mapping.CreateParameter(_command, $"@p{i}", null, nullable: true));
    }

    /// <summary>In the order of the values.</summary>
    public TableColumn[] Columns { get; }

    /// <summary>Writes one row.</summary>
    /// <param name="values">As in the database, null for none; one for each column.</param>
    public void Write(IReadOnlyList<object?> values)
    {
        for (int i = 0; i < Columns.Length; i++) _command.Parameters[i].Value = values[i] ?? DBNull.Value;
        _command.ExecuteNonQuery();
    }

    public void Dispose() => _command.Dispose();
}
