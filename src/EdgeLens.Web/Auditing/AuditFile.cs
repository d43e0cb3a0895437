using System.Text.Encodings.Web;
using System.Text.Json;
using EdgeLens.Web.Serving;

namespace EdgeLens.Web.Auditing;

/// <summary>
/// Who signed in, from where, with what success, which devices were paired and what was decided: one JSON object a line in <c>web/audit.jsonl</c> of the book's folder, only ever
/// added to, on the disk before the answer goes out.
/// </summary>
internal sealed class AuditFile(string bookFolder, TimeProvider clock)
{
    private static readonly JsonSerializerOptions Form = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Encoder = JavaScriptEncoder.Default };
    private readonly string _path = Path.Combine(bookFolder, "web", "audit.jsonl");
    private readonly Lock _gate = new();

    public string FilePath => _path;

    public void Write(string what, string? who, string? from, string? about = null)
    {
        byte[] line = [.. JsonSerializer.SerializeToUtf8Bytes(new Row(clock.GetUtcNow(), what, who, from, about), Form), (byte)'\n'];
        lock (_gate)
        {
            WebFile.MakeFolder(Path.GetDirectoryName(_path)!);
            using FileStream stream = new(_path, WebFile.Private(FileMode.Append));
            stream.Write(line);
            stream.Flush(flushToDisk: true);
        }
    }

    private sealed record Row(DateTimeOffset At, string What, string? Who, string? From, string? About);
}
