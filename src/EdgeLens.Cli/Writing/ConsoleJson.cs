using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace EdgeLens.Cli.Writing;

/// <summary>JSON for standard output.</summary>
internal static class ConsoleJson
{
    // For files and pipes, never for a page as it is: µ and ± may stand as they are.
    private static readonly JsonWriterOptions Options = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>One object.</summary>
    public static string Write(Action<Utf8JsonWriter> members)
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream, Options))
        {
            json.WriteStartObject();
            members(json);
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }
}
