using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using EdgeLens.Store.Database;

namespace EdgeLens.Store.Transfer;

/// <summary>In which form tables are written: both hold the same values.</summary>
public enum TableFormat
{
    /// <summary>RFC 4180, UTF-8, first record the names.</summary>
    Csv,

    /// <summary>An array of objects, UTF-8; null for a missing value.</summary>
    Json,
}

/// <summary>Writes and reads one table in one of the forms.</summary>
internal static class TableFile
{
    /// <summary>Ending of the file's name, without a dot.</summary>
    public static string Extension(TableFormat format) => format == TableFormat.Csv ? "csv" : "json";

    /// <summary>Writes rows.</summary>
    /// <returns>How many.</returns>
    public static long Write(Stream target, TableFormat format, TableColumn[] columns, IEnumerable<object?[]> rows) =>
        format == TableFormat.Csv ? WriteCsv(target, columns, rows) : WriteJson(target, columns, rows);

    /// <summary>Reads rows as pairs of name and text.</summary>
    /// <exception cref="FormatException">The file is not in the form.</exception>
    public static IEnumerable<IReadOnlyDictionary<string, string?>> Read(Stream source, TableFormat format) => format == TableFormat.Csv ? ReadCsv(source) : ReadJson(source);

    private static long WriteCsv(Stream target, TableColumn[] columns, IEnumerable<object?[]> rows)
    {
        using StreamWriter writer = new(target, new UTF8Encoding(false), leaveOpen: true);
        CsvText.Write(writer, [.. columns.Select(c => c.Name)]);
        long count = 0;
        foreach (object?[] row in rows)
        {
            CsvText.Write(writer, Array.ConvertAll(row, ValueText.Write));
            count++;
        }
        return count;
    }

    private static IEnumerable<IReadOnlyDictionary<string, string?>> ReadCsv(Stream source)
    {
        using StreamReader reader = new(source, Encoding.UTF8);
        string[]? names = null;
        foreach (string?[] record in CsvText.Read(reader))
        {
            if (names is null)
            {
                names = [.. record.Select(n => n ?? throw new FormatException("a column has no name"))];
                continue;
            }
            if (record.Length != names.Length) throw new FormatException($"a record has {record.Length} fields, the head {names.Length}");
            yield return names.Zip(record).ToDictionary(p => p.First, p => p.Second, StringComparer.Ordinal);
        }
    }

    private static long WriteJson(Stream target, TableColumn[] columns, IEnumerable<object?[]> rows)
    {
        using Utf8JsonWriter json = new(target, new() { Indented = false, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        long count = 0;
        json.WriteStartArray();
        foreach (object?[] row in rows)
        {
            json.WriteStartObject();
            for (int i = 0; i < columns.Length; i++) Write(json, columns[i].Name, row[i]);
            json.WriteEndObject();
            if (++count % 1000 == 0) json.Flush();
        }
        json.WriteEndArray();
        return count;
    }

    private static void Write(Utf8JsonWriter json, string name, object? value)
    {
        switch (value)
        {
            case null: json.WriteNull(name); break;
            case bool flag: json.WriteBoolean(name, flag); break;
            case int or long or double or decimal:
                json.WritePropertyName(name);
                json.WriteRawValue(ValueText.Write(value)!);
                break;
            default: json.WriteString(name, ValueText.Write(value)); break;
        }
    }

    private static IEnumerable<IReadOnlyDictionary<string, string?>> ReadJson(Stream source)
    {
        foreach (JsonElement row in JsonSerializer.DeserializeAsyncEnumerable<JsonElement>(source).ToBlockingEnumerable())
            yield return row.EnumerateObject().ToDictionary(p => p.Name, p => Text(p.Value), StringComparer.Ordinal);
    }

    private static string? Text(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Null => null,
        JsonValueKind.String => value.GetString(),
        JsonValueKind.True => "true",
        JsonValueKind.False => "false",
        JsonValueKind.Number => value.GetRawText(),
        _ => throw new FormatException("a value is neither text nor number"),
    };
}
