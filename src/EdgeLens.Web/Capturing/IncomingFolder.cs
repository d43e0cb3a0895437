using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Metadata;

namespace EdgeLens.Web.Capturing;

/// <summary>Where uploads lie until they are measured: <c>web/incoming</c> of the book's folder, under names of ours, never executed or served.</summary>
internal sealed class IncomingFolder
{
    /// <summary>A phone's JPEG of 50 megapixels at its best quality is some 30 MB; raw and uncompressed files go through <c>edgelens book inspect</c>.</summary>
    public const long MaxUploadBytes = 40_000_000;

    private const int IdLength = 32;

    private readonly string _folder;

    public IncomingFolder(string bookFolder, TimeProvider clock)
    {
        _folder = Path.Combine(bookFolder, "web", "incoming");
        WebFile.MakeFolder(_folder);
        // Left over from a server that was stopped: their phones were told to take them again. Young ones may be another server's.
        foreach (string old in Directory.EnumerateFiles(_folder).Where(f => clock.GetUtcNow() - File.GetLastWriteTimeUtc(f) > TimeSpan.FromHours(1))) File.Delete(old);
    }

    /// <summary>Keeps an upload; its name has no ending, so that only its content says what it is.</summary>
    public async Task<string> Take(IFormFile file, CancellationToken cancelled)
    {
        string path = Path.Combine(_folder, System.Security.Cryptography.RandomNumberGenerator.GetHexString(IdLength, lowercase: true));
        await using FileStream stream = new(path, WebFile.Private(FileMode.CreateNew));
        await file.CopyToAsync(stream, cancelled);
        return path;
    }

    /// <summary>True for a name as <see cref="Take"/> gives it, and as the phone's script gives one to what it sends.</summary>
    public static bool IsId(string id) => id.Length == IdLength && id.All(char.IsAsciiHexDigitLower);

    /// <summary>The limit as routes understand it: photograph and the few words beside it.</summary>
    public sealed class SizeLimit : IRequestSizeLimitMetadata
    {
        public long? MaxRequestBodySize => MaxUploadBytes + 64 * 1024;
    }
}
