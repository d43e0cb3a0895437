using System.Globalization;
using System.Text.Json;

namespace EdgeLens.Cli.Folders;

/// <summary>One object of the index, with the words for where it is. Reads fields leniently and collects what is wrong, so that a user mends a long index in one go.</summary>
/// <param name="element">Of any kind; what is no object has no fields.</param>
/// <param name="place">"instrument C-07, inspection 2025-06-20"; empty for the whole file.</param>
/// <param name="complaints">Grows.</param>
internal sealed class IndexNode(JsonElement element, string place, List<string> complaints)
{
    private const int LongestText = 200;

    /// <summary>Adds a complaint about a field.</summary>
    public void Complain(string field, string what) => complaints.Add($"{(place.Length == 0 ? "" : place + ": ")}field {field} {what}");

    /// <summary>The same object under a name that says more.</summary>
    public IndexNode At(string newPlace) => new(element, newPlace, complaints);

    public string? Text(string field)
    {
        if (Optional(field) is not { } e) return Lacking<string>(field);
        return OptionalText(field) ?? (e.ValueKind == JsonValueKind.String ? Lacking<string>(field) : null);
    }

    public string? OptionalText(string field)
    {
        if (Optional(field) is not { } e) return null;
        if (e.ValueKind == JsonValueKind.String && e.GetString()!.Trim() is { Length: <= LongestText } text) return text.Length == 0 ? null : text;
        return Wrong<string>(field, e, $"a text of 1 to {LongestText} characters");
    }

    /// <summary>A text of which <paramref name="read"/> makes something; what it must be, when it gives null.</summary>
    public T? Read<T>(string field, Func<string, T?> read, string wanted) where T : class =>
        Text(field) is not { } text ? null : read(text) ?? Wrong<T>(field, Optional(field)!.Value, wanted);

    public bool Flag(string field)
    {
        if (Optional(field) is not { } e) return false;
        if (e.ValueKind is JsonValueKind.True or JsonValueKind.False) return e.GetBoolean();
        Complain(field, $"is {Shortened(e)}, but must be true or false");
        return false;
    }

    public double? OptionalNumber(string field, double least, double greatest)
    {
        if (Optional(field) is not { } e) return null;
        if (Number(e) is { } number && number >= least && number <= greatest) return number;
        Complain(field, string.Create(CultureInfo.InvariantCulture, $"is {Shortened(e)}, but must be a number from {least} to {greatest}"));
        return null;
    }

    /// <summary>Two numbers above 0.</summary>
    public (double First, double Second)? OptionalPair(string field)
    {
        if (Optional(field) is not { } e) return null;
        if (e.ValueKind == JsonValueKind.Array && e.GetArrayLength() == 2 && Number(e[0]) is > 0 and var first && Number(e[1]) is > 0 and var second) return (first, second);
        Complain(field, $"is {Shortened(e)}, but must be two lengths in mm [x, y], or null when they were not measured");
        return null;
    }

    /// <summary>The objects of a list.</summary>
    /// <param name="field">Must be there.</param>
    /// <param name="placeOf">Words for one of them by its number, counted from 1.</param>
    public IEnumerable<IndexNode> Items(string field, Func<int, string> placeOf)
    {
        if (Optional(field) is not { ValueKind: JsonValueKind.Array } list)
        {
            Complain(field, "must be a list [ ... ]");
            yield break;
        }
        int number = 0;
        foreach (JsonElement item in list.EnumerateArray())
        {
            string at = placeOf(++number);
            if (item.ValueKind == JsonValueKind.Object) yield return new(item, at, complaints);
            else complaints.Add($"{at} is {Shortened(item)}, but must be an object {{ ... }}");
        }
    }

    private JsonElement? Optional(string field) =>
        element.ValueKind == JsonValueKind.Object && element.TryGetProperty(field, out JsonElement e) && e.ValueKind != JsonValueKind.Null ? e : null;

    private static double? Number(JsonElement e) => e.ValueKind == JsonValueKind.Number && e.TryGetDouble(out double d) && double.IsFinite(d) ? d : null;

    private T? Lacking<T>(string field) where T : class
    {
        Complain(field, "is missing");
        return null;
    }

    private T? Wrong<T>(string field, JsonElement e, string wanted) where T : class
    {
        Complain(field, $"is {Shortened(e)}, but must be {wanted}");
        return null;
    }

    private static string Shortened(JsonElement e)
    {
        string raw = e.GetRawText();
        return raw.Length <= 60 ? raw : raw[..57] + "...";
    }
}
