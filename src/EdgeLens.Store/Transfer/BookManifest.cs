using System.Collections.Immutable;
using System.Text.Json;

namespace EdgeLens.Store.Transfer;

/// <summary>What a backup or export holds: <c>manifest.json</c>.</summary>
/// <param name="SchemaVersion">Of this file.</param>
/// <param name="Practice">Code of the practice.</param>
/// <param name="Schema">Last step of the schema that the rows are in.</param>
/// <param name="MadeAt">When, UTC.</param>
/// <param name="Tables">Rows in each table.</param>
/// <param name="Photographs">SHA-256 of the photographs that come along; empty for none.</param>
public sealed record BookManifest(int SchemaVersion, string Practice, string Schema, DateTimeOffset MadeAt, ImmutableSortedDictionary<string, long> Tables, ImmutableArray<string> Photographs)
{
    /// <summary>Its file.</summary>
    public const string FileName = "manifest.json";

    private static readonly JsonSerializerOptions Form = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true };

    internal byte[] ToJson() => JsonSerializer.SerializeToUtf8Bytes(this, Form);

    internal static BookManifest FromJson(ReadOnlySpan<byte> utf8) => JsonSerializer.Deserialize<BookManifest>(utf8, Form) ?? throw new JsonException("it is empty");
}
