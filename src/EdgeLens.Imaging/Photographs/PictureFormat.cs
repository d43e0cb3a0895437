using System.Collections.Immutable;

namespace EdgeLens.Imaging.Photographs;

/// <summary>A kind of picture file that EdgeLens reads, told by its first bytes and never by its name.</summary>
/// <param name="Name">For people.</param>
/// <param name="Extensions">Lower case with the dot; the first is the usual one.</param>
public sealed record PictureFormat(string Name, ImmutableArray<string> Extensions)
{
    /// <summary>ITU-T T.81, ISO/IEC 10918-1.</summary>
    public static PictureFormat Jpeg { get; } = new("JPEG", [".jpg", ".jpeg", ".jpe", ".jfif"]);

    /// <summary>ISO/IEC 15948.</summary>
    public static PictureFormat Png { get; } = new("PNG", [".png"]);

    /// <summary>TIFF 6.0, also the form of a scanner's file; not BigTIFF.</summary>
    public static PictureFormat Tiff { get; } = new("TIFF", [".tif", ".tiff"]);

    /// <summary>RFC 9649.</summary>
    public static PictureFormat Webp { get; } = new("WebP", [".webp"]);

    /// <summary>What the bytes are; null when they are none of the four.</summary>
    /// <param name="bytes">The whole file.</param>
    public static PictureFormat? Of(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF])) return Jpeg;
        if (bytes.StartsWith(PngChunk.Signature)) return Png;
        if (bytes.StartsWith("II*\0"u8) || bytes.StartsWith("MM\0*"u8)) return Tiff;
        if (bytes.Length >= 12 && bytes.StartsWith("RIFF"u8) && bytes[8..12].SequenceEqual("WEBP"u8)) return Webp;
        return null;
    }
}
