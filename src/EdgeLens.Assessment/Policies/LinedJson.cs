using System.Text;
using System.Text.Json;

namespace EdgeLens.Assessment.Policies;

/// <summary>A JSON value that knows its line, so that a complaint can point at it. (System.Text.Json's documents forget where a value stood.)</summary>
/// <param name="Path">Property names from the root, joined by dots.</param>
/// <param name="Line">Counted from 1: where the property's name stands, or the value itself in an array.</param>
/// <param name="Kind">Kind of value.</param>
/// <param name="Text">The string, for a string.</param>
/// <param name="Number">The number, for a number.</param>
/// <param name="Members">The properties in the file's order, for an object; repeated names are kept.</param>
internal sealed record LinedJson(string Path, int Line, JsonValueKind Kind, string? Text, double? Number, IReadOnlyList<(string Name, LinedJson Value)> Members)
{
    /// <summary>Reads a whole text.</summary>
    /// <exception cref="JsonException">The text is not JSON, or nested deeper than 16.</exception>
    public static LinedJson Parse(string json)
    {
        byte[] utf8 = Encoding.UTF8.GetBytes(json);
        Utf8JsonReader reader = new(utf8, new JsonReaderOptions { MaxDepth = 16 });
        reader.Read();
        LinedJson root = ReadValue(ref reader, utf8, "", 1);
        if (reader.Read()) throw new JsonException("There is more after the end.");
        return root;
    }

    private static LinedJson ReadValue(ref Utf8JsonReader reader, byte[] utf8, string path, int line)
    {
        switch (reader.TokenType)
        {
            case JsonTokenType.StartObject:
                List<(string, LinedJson)> members = [];
                while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
                {
                    string name = reader.GetString()!;
                    int nameLine = LineAt(utf8, reader.TokenStartIndex);
                    reader.Read();
                    members.Add((name, ReadValue(ref reader, utf8, path.Length == 0 ? name : $"{path}.{name}", nameLine)));
                }
                return new(path, line, JsonValueKind.Object, null, null, members);
            case JsonTokenType.StartArray:
                reader.Skip();
                return new(path, line, JsonValueKind.Array, null, null, []);
            case JsonTokenType.String: return new(path, line, JsonValueKind.String, reader.GetString(), null, []);
            case JsonTokenType.Number: return new(path, line, JsonValueKind.Number, null, reader.GetDouble(), []);
            case JsonTokenType.Null: return new(path, line, JsonValueKind.Null, null, null, []);
            default: return new(path, line, JsonValueKind.True, null, null, []);
        }
    }

    private static int LineAt(byte[] utf8, long index) => 1 + utf8.AsSpan(0, (int)index).Count((byte)'\n');
}
