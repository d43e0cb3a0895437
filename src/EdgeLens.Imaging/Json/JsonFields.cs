using System.Text.Json;

namespace EdgeLens.Imaging.Json;

/// <summary>Reads the fields of one JSON object and says exactly which field is missing or wrong, with its path and value.</summary>
internal sealed class JsonFields
{
    private readonly JsonElement _object;
    private readonly string _path;

    private JsonFields(JsonElement element, string path)
    {
        if (element.ValueKind != JsonValueKind.Object) throw Wrong(path.Length == 0 ? "the file" : path, element, "an object { ... }");
        (_object, _path) = (element, path);
    }

    /// <summary>Parses a whole file and hands its root object to <paramref name="read"/>.</summary>
    /// <exception cref="JsonFieldException">Not JSON, or a field is missing or wrong; the message names it.</exception>
    public static T Read<T>(string json, Func<JsonFields, T> read)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(json);
            return read(new JsonFields(document.RootElement, ""));
        }
        catch (JsonException e)
        {
            throw new JsonFieldException($"The file is not valid JSON: {e.Message}", e);
        }
    }

    public double Number(string name) => AsNumber(Get(name), PathOf(name));

    public int Integer(string name) =>
        Get(name) is { ValueKind: JsonValueKind.Number } e && e.TryGetInt32(out int i) ? i : throw Wrong(PathOf(name), Get(name), "a whole number");

    public bool Flag(string name) =>
        Get(name) is { ValueKind: JsonValueKind.True or JsonValueKind.False } e ? e.GetBoolean() : throw Wrong(PathOf(name), Get(name), "true or false");

    public string Text(string name) =>
        Get(name) is { ValueKind: JsonValueKind.String } e && e.GetString() is { Length: > 0 } s ? s : throw Wrong(PathOf(name), Get(name), "a text that is not empty");

    public string? OptionalText(string name) => _object.TryGetProperty(name, out _) ? Text(name) : null;

    public (double First, double Second) Pair(string name)
    {
        double[] numbers = Numbers(name);
        return numbers.Length == 2 ? (numbers[0], numbers[1]) : throw Wrong(PathOf(name), Get(name), "two numbers [x, y]");
    }

    public double[] Numbers(string name) => [.. Items(name).Select(i => AsNumber(i.Element, i.Path))];

    public JsonFields Object(string name) => new(Get(name), PathOf(name));

    public IEnumerable<JsonFields> Objects(string name) => Items(name).Select(i => new JsonFields(i.Element, i.Path));

    public IEnumerable<JsonFields> OptionalObjects(string name) => _object.TryGetProperty(name, out _) ? Objects(name) : [];

    private IEnumerable<(JsonElement Element, string Path)> Items(string name)
    {
        JsonElement e = Get(name);
        if (e.ValueKind != JsonValueKind.Array) throw Wrong(PathOf(name), e, "a list [ ... ]");
        return e.EnumerateArray().Select((item, i) => (item, $"{PathOf(name)}[{i}]"));
    }

    private JsonElement Get(string name) =>
        _object.TryGetProperty(name, out JsonElement e) ? e : throw new JsonFieldException($"Field {PathOf(name)} is missing.");

    private string PathOf(string name) => _path.Length == 0 ? name : $"{_path}.{name}";

    private static double AsNumber(JsonElement e, string path) =>
        e.ValueKind == JsonValueKind.Number && e.TryGetDouble(out double d) && double.IsFinite(d) ? d : throw Wrong(path, e, "a finite number");

    private static JsonFieldException Wrong(string path, JsonElement e, string wanted) => new($"Field {path} is {Shortened(e.GetRawText())}, but must be {wanted}.");

    private static string Shortened(string raw) => raw.Length <= 60 ? raw : raw[..57] + "...";
}

/// <summary>A field of a JSON file is missing or wrong; the message names field and value.</summary>
internal sealed class JsonFieldException(string message, Exception? inner = null) : Exception(message, inner);
