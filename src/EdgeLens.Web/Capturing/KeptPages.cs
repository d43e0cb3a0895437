using System.Globalization;
using System.Text;
using EdgeLens.Web.Serving;

namespace EdgeLens.Web.Capturing;

/// <summary>
/// Report and drawn photograph of what was measured here, in <c>web/reports</c> of the book's folder. They repeat what the book holds, for people: without them a page shows
/// the book's picture and words.
/// </summary>
internal sealed class KeptPages(string bookFolder)
{
    private readonly string _folder = Path.Combine(bookFolder, "web", "reports");

    public void Keep(long inspectionId, string? svg, string? html)
    {
        if (svg is not null) WebFile.Write(PathOf(inspectionId, ".svg"), Encoding.UTF8.GetBytes(svg));
        if (html is not null) WebFile.Write(PathOf(inspectionId, ".html"), Encoding.UTF8.GetBytes(html));
    }

    /// <summary>Keeps a photograph in the frame of an as-new one; a later as-new one makes another frame.</summary>
    public void Keep(long inspectionId, RegisteredFace face) => WebFile.Write(PathOf(inspectionId, face.AsNewId ?? inspectionId), face.Jpeg);

    public byte[]? Registered(long inspectionId, long asNewId) => Read(PathOf(inspectionId, asNewId));

    /// <summary>What a sharpening did, a line each.</summary>
    public void KeepSharpening(long inspectionId, string text) => WebFile.Write(PathOf(inspectionId, ".sharpened.txt"), Encoding.UTF8.GetBytes(text));

    /// <summary>As kept; null: nothing was compared here.</summary>
    public string? Sharpening(long inspectionId) => Read(PathOf(inspectionId, ".sharpened.txt")) is { } bytes ? Encoding.UTF8.GetString(bytes) : null;

    public byte[]? Picture(long inspectionId) => Read(PathOf(inspectionId, ".svg"));

    public byte[]? Report(long inspectionId) => Read(PathOf(inspectionId, ".html"));

    private static byte[]? Read(string path) => File.Exists(path) ? File.ReadAllBytes(path) : null;

    private string PathOf(long id, long asNewId) => PathOf(id, string.Create(CultureInfo.InvariantCulture, $"-on-{asNewId}.jpg"));

    private string PathOf(long id, string ending) => Path.Combine(_folder, id.ToString(CultureInfo.InvariantCulture) + ending);
}
