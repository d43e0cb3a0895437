using EdgeLens.Records.Entries;
using EdgeLens.Store.Database;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Storage;

namespace EdgeLens.Store.Transfer;

/// <summary>Ids of rows when rows come from elsewhere: all are shifted past the greatest that the database has, so that references stay right.</summary>
internal static class RowIds
{
    /// <summary>Of all practices; 0 for an empty table.</summary>
    public static long Greatest(BookContext context, IEntityType table) => Scalar(context, $"SELECT COALESCE(MAX({Named(context, "Id")}), 0) AS {Named(context, "Value")} FROM {Named(context, table.GetTableName()!)}");

    /// <summary>True when the practice has rows in the table.</summary>
    public static bool HasOwn(BookContext context, IEntityType table, string practice) =>
        Scalar(context, $"SELECT COUNT(*) AS {Named(context, "Value")} FROM {Named(context, table.GetTableName()!)} WHERE {Named(context, BookContext.PracticeCode)} = {{0}}", practice) > 0;

    /// <summary>PostgreSQL counts ids apart from the rows: its counters are set after the imported ones. SQLite looks at the rows itself.</summary>
    public static void ContinueAfterImport(BookContext context, IEnumerable<IEntityType> tables, bool isSqlite)
    {
        if (isSqlite) return;
        foreach (IEntityType table in tables.Where(t => t.ClrType.IsSubclassOf(typeof(Entry))))
            Scalar(context, $"SELECT setval(pg_get_serial_sequence('{Named(context, table.GetTableName()!)}', 'Id'), GREATEST((SELECT COALESCE(MAX(\"Id\"), 1) FROM {Named(context, table.GetTableName()!)}), 1)) AS \"Value\"");
    }

    private static string Named(BookContext context, string name) => context.GetService<ISqlGenerationHelper>().DelimitIdentifier(name);

    private static long Scalar(BookContext context, string sql, params object[] parameters) => context.Database.SqlQueryRaw<long>(sql, parameters).AsEnumerable().Single();
}
