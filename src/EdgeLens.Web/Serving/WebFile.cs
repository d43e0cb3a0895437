using System.Text.Json;
using System.Text.Json.Serialization;
using EdgeLens.Records.Files;

namespace EdgeLens.Web.Serving;

/// <summary>Small files of the server's own, readable by their owner alone, written whole or not at all.</summary>
internal static class WebFile
{
    private static readonly JsonSerializerOptions Form = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true, Converters = { new JsonStringEnumConverter() } };

    public static T? ReadJson<T>(string path) where T : class => File.Exists(path) ? JsonSerializer.Deserialize<T>(File.ReadAllBytes(path), Form) : null;

    public static void WriteJson<T>(string path, T value) => Write(path, JsonSerializer.SerializeToUtf8Bytes(value, Form));

    public static void Write(string path, ReadOnlyMemory<byte> bytes)
    {
        MakeFolder(Path.GetDirectoryName(path)!);
        WholeFile.Write(path, bytes, ownerOnly: true);
    }

    /// <summary>A folder that others of the machine cannot look into.</summary>
    public static void MakeFolder(string folder)
    {
        if (OperatingSystem.IsWindows()) Directory.CreateDirectory(folder);
        else Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }

    public static FileStreamOptions Private(FileMode mode)
    {
        FileStreamOptions options = new() { Mode = mode, Access = FileAccess.Write, Share = FileShare.Read };
        if (!OperatingSystem.IsWindows()) options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        return options;
    }
}
