using System.Text.Json;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Reports.Json;

/// <summary>How figures stand in JSON: as an object, or as null with the reason in a property beside.</summary>
internal static class FigureWriting
{
    /// <summary>Ending of the property that says why another one is null.</summary>
    public const string MissingSuffix = "Missing";

    // 1e-6 of a millimetre or percent, 1e-6 µm: far below any uncertainty, and short enough to read.
    private const int Decimals = 6;

    public static void WriteFigure(this Utf8JsonWriter json, string name, Figure figure)
    {
        if (figure.Measured is { } measured) json.WriteMeasured(name, measured);
        else json.WriteMissing(name, figure.WhyMissing ?? "not asked for");
    }

    public static void WriteMeasured(this Utf8JsonWriter json, string name, Measured figure)
    {
        json.WriteStartObject(name);
        json.WriteRounded("value", figure.Value);
        json.WriteRounded("standardUncertainty", figure.StandardUncertainty);
        json.WriteRounded("expandedUncertainty", figure.ExpandedUncertainty);
        json.WriteEndObject();
    }

    public static void WriteMissing(this Utf8JsonWriter json, string name, string why)
    {
        json.WriteNull(name);
        json.WriteString(name + MissingSuffix, why);
    }

    public static void WriteRounded(this Utf8JsonWriter json, string name, double value) => json.WriteNumber(name, Math.Round(value, Decimals));

    public static void WriteOptional(this Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } v) json.WriteRounded(name, v);
        else json.WriteNull(name);
    }

    /// <summary>An array of objects; <paramref name="writeMembers"/> writes the properties of each.</summary>
    public static void WriteObjects<T>(this Utf8JsonWriter json, string name, IEnumerable<T> items, Action<Utf8JsonWriter, T> writeMembers)
    {
        json.WriteStartArray(name);
        foreach (T item in items)
        {
            json.WriteStartObject();
            writeMembers(json, item);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    /// <summary>An array of texts.</summary>
    public static void WriteTexts(this Utf8JsonWriter json, string name, IEnumerable<string> texts)
    {
        json.WriteStartArray(name);
        foreach (string text in texts) json.WriteStringValue(text);
        json.WriteEndArray();
    }

    /// <summary>An enumeration's member as in the schema: its name with a small first letter.</summary>
    public static string Name<T>(T member) where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(member.ToString());
}
