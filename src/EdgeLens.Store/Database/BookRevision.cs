using System.Data.Common;
using EdgeLens.Records.Entries;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Storage;

namespace EdgeLens.Store.Database;

/// <summary>
/// Rows are only added, and the writers of a practice wait for each other: the last id of each table of entries says all about its state, and their sum about the book's.
/// Rows without a practice of their own (figures, photographs, documents) come with an inspection.
/// </summary>
internal static class BookRevision
{
    public static long Read(BookContext context, string practice)
    {
        ISqlGenerationHelper sql = context.GetService<ISqlGenerationHelper>();
        IEnumerable<string> last =
            from type in context.Model.GetEntityTypes()
            where type.ClrType.IsSubclassOf(typeof(Entry))
            select $"SELECT MAX({sql.DelimitIdentifier(nameof(Entry.Id))}) AS n FROM {sql.DelimitIdentifier(type.GetTableName()!)} WHERE {sql.DelimitIdentifier(BookContext.PracticeCode)} = @practice";
        context.Database.OpenConnection();
        using DbCommand command = context.Database.GetDbConnection().CreateCommand();
        command.CommandText = $"SELECT CAST(COALESCE(SUM(n), 0) AS BIGINT) FROM ({string.Join(" UNION ALL ", last)}) AS ids";
        DbParameter parameter = command.CreateParameter();
        (parameter.ParameterName, parameter.Value) = ("@practice", practice);
        command.Parameters.Add(parameter);
        return (long)command.ExecuteScalar()!;
    }
}
