using System.Buffers.Binary;
using System.Text;

namespace EdgeLens.Imaging.Photographs;

/// <summary>The chunks that a PNG file is made of (ISO/IEC 15948, clause 5): length, type, content, checksum.</summary>
public static class PngChunk
{
    private const int EndOfHeader = 8 + 12 + 13;

    private static readonly uint[] ChecksumTable = [.. Enumerable.Range(0, 256).Select(n =>
    {
        uint c = (uint)n;
        for (int k = 0; k < 8; k++) c = (c & 1) == 0 ? c >> 1 : 0xEDB88320 ^ (c >> 1);
        return c;
    })];

    /// <summary>The eight bytes that every file begins with.</summary>
    public static ReadOnlySpan<byte> Signature => [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>CRC-32 as annex D defines it.</summary>
    public static uint Checksum(ReadOnlySpan<byte> bytes)
    {
        uint crc = uint.MaxValue;
        foreach (byte b in bytes) crc = ChecksumTable[(byte)(crc ^ b)] ^ (crc >> 8);
        return ~crc;
    }

    /// <summary>A whole chunk.</summary>
    /// <param name="type">Four ASCII letters.</param>
    /// <param name="content">Up to 2^31 - 1 bytes.</param>
    public static byte[] Make(string type, ReadOnlySpan<byte> content)
    {
        byte[] chunk = new byte[content.Length + 12];
        BinaryPrimitives.WriteInt32BigEndian(chunk, content.Length);
        Encoding.ASCII.GetBytes(type, chunk.AsSpan(4, 4));
        content.CopyTo(chunk.AsSpan(8));
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(chunk.Length - 4), Checksum(chunk.AsSpan(4, content.Length + 4)));
        return chunk;
    }

    /// <summary>The same file with its resolution (pHYs chunk, 11.3.5.3) behind the header.</summary>
    /// <param name="png">A whole file without such a chunk.</param>
    /// <param name="pixelsPerMetre">Along both axes.</param>
    public static byte[] WithResolution(ReadOnlySpan<byte> png, int pixelsPerMetre)
    {
        const byte UnitIsMetre = 1;
        byte[] content = new byte[9];
        BinaryPrimitives.WriteInt32BigEndian(content, pixelsPerMetre);
        BinaryPrimitives.WriteInt32BigEndian(content.AsSpan(4), pixelsPerMetre);
        content[8] = UnitIsMetre;
        return [.. png[..EndOfHeader], .. Make("pHYs", content), .. png[EndOfHeader..]];
    }
}
