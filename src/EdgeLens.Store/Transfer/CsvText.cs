using System.Text;

namespace EdgeLens.Store.Transfer;

/// <summary>Comma-separated values as RFC 4180 has them, with one rule more: an empty field is a missing value, a quoted empty one ("") an empty text.</summary>
internal static class CsvText
{
    /// <summary>Writes one record.</summary>
    public static void Write(TextWriter target, IReadOnlyList<string?> fields)
    {
        for (int i = 0; i < fields.Count; i++)
        {
            if (i > 0) target.Write(',');
            if (fields[i] is not { } field) continue;
            if (field.Length > 0 && field.AsSpan().IndexOfAny(",\"\r\n") < 0) target.Write(field);
            else
            {
                target.Write('"');
                target.Write(field.Replace("\"", "\"\"", StringComparison.Ordinal));
                target.Write('"');
            }
        }
        target.Write("\r\n");
    }

    /// <summary>Reads all records, one after the other.</summary>
    /// <exception cref="FormatException">A quoted field does not end.</exception>
    public static IEnumerable<string?[]> Read(TextReader source)
    {
        List<string?> record = [];
        StringBuilder field = new();
        while (source.Peek() >= 0)
        {
            record.Add(Field(source, field));
            if (source.Peek() == ',')
            {
                source.Read();
                // A comma at the very end of a record stands before one more, empty field.
                if (source.Peek() is < 0 or '\r' or '\n') record.Add(null);
                else continue;
            }
            if (source.Peek() == '\r') source.Read();
            if (source.Peek() == '\n') source.Read();
            yield return [.. record];
            record.Clear();
        }
    }

    private static string? Field(TextReader source, StringBuilder field)
    {
        field.Clear();
        if (source.Peek() != '"')
        {
            while (source.Peek() is not (< 0 or ',' or '\r' or '\n')) field.Append((char)source.Read());
            return field.Length == 0 ? null : field.ToString();
        }
        source.Read();
        for (int c = source.Read(); ; c = source.Read())
        {
            if (c < 0) throw new FormatException("a quoted field does not end");
            if (c != '"') field.Append((char)c);
            else if (source.Peek() == '"') field.Append((char)source.Read());
            else return field.ToString();
        }
    }
}
