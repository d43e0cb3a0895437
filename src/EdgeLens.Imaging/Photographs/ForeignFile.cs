using System.Text;

namespace EdgeLens.Imaging.Photographs;

/// <summary>Says what a file is that is none of ours, so that the user sees which file went astray.</summary>
internal static class ForeignFile
{
    internal static string Describe(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith("GIF8"u8)) return "a GIF picture";
        if (bytes.StartsWith("BM"u8)) return "a BMP picture";
        if (bytes.StartsWith("%PDF"u8)) return "a PDF document";
        if (bytes.StartsWith("PK\x03\x04"u8)) return "a ZIP archive";
        if (bytes.StartsWith("II+\0"u8) || bytes.StartsWith("MM\0+"u8)) return "a BigTIFF picture";
        if (bytes.Length >= 12 && bytes[4..8].SequenceEqual("ftyp"u8)) return Brand(bytes[8..12]);
        return IsText(bytes[..Math.Min(bytes.Length, 512)]) ? "text" : "of an unknown kind";
    }

    /// <summary>ISO/IEC 14496-12 brands that phones write.</summary>
    private static string Brand(ReadOnlySpan<byte> brand) => Encoding.ASCII.GetString(brand) switch
    {
        "heic" or "heix" or "hevc" or "heim" or "heis" or "mif1" or "msf1" => "a HEIC picture",
        "avif" or "avis" => "an AVIF picture",
        _ => "a film",
    };

    private static bool IsText(ReadOnlySpan<byte> bytes) => !bytes.ContainsAnyExcept(TextBytes);

    private static readonly System.Buffers.SearchValues<byte> TextBytes =
        System.Buffers.SearchValues.Create([(byte)'\t', (byte)'\n', (byte)'\r', .. Enumerable.Range(0x20, 0x5F).Select(i => (byte)i), .. Enumerable.Range(0x80, 0x80).Select(i => (byte)i)]);
}
