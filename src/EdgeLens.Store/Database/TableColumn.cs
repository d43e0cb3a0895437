using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Storage;

namespace EdgeLens.Store.Database;

/// <summary>One column of a table, as the model describes it.</summary>
/// <param name="Property">Of the record.</param>
/// <param name="Name">Of the column.</param>
/// <param name="Mapping">To the database at hand.</param>
internal sealed record TableColumn(IProperty Property, string Name, RelationalTypeMapping Mapping)
{
    /// <summary>The columns of a table, the key first, then by name: the same order in every database.</summary>
    public static TableColumn[] Of(IEntityType type) =>
    [
        .. type.GetProperties().OrderBy(p => p.IsPrimaryKey() ? 0 : 1).ThenBy(p => p.IsPrimaryKey() ? p.GetIndex() : 0).ThenBy(p => p.Name, StringComparer.Ordinal)
            .Select(p => new TableColumn(p, p.GetColumnName(), p.GetRelationalTypeMapping())),
    ];

    /// <summary>What the database holds: the record's own type, or that it is converted to.</summary>
    public Type StoredType => Nullable.GetUnderlyingType(Mapping.Converter?.ProviderClrType ?? Property.ClrType) ?? Mapping.Converter?.ProviderClrType ?? Property.ClrType;

    /// <summary>True for ids of rows and references to them: what an import into a database with other rows must shift.</summary>
    public bool IsRowId => Property.IsKey() && Property.ClrType == typeof(long) || Property.IsForeignKey();

    /// <summary>Reads the value as the database holds it.</summary>
    public object? Read(DbDataReader reader, int ordinal)
    {
        if (reader.IsDBNull(ordinal)) return null;
        Type type = StoredType;
        return type == typeof(DateOnly) ? reader.GetFieldValue<DateOnly>(ordinal)
            : type == typeof(TimeOnly) ? reader.GetFieldValue<TimeOnly>(ordinal)
            : type == typeof(DateTimeOffset) ? reader.GetFieldValue<DateTimeOffset>(ordinal)
            : type == typeof(decimal) ? reader.GetDecimal(ordinal)
            : type == typeof(bool) ? reader.GetBoolean(ordinal)
            : type == typeof(int) ? reader.GetInt32(ordinal)
            : type == typeof(long) ? reader.GetInt64(ordinal)
            : type == typeof(double) ? reader.GetDouble(ordinal)
            : type == typeof(byte[]) ? reader.GetFieldValue<byte[]>(ordinal)
            : reader.GetString(ordinal);
    }
}
