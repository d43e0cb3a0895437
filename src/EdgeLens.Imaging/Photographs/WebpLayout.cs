using System.Buffers.Binary;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Imaging.Photographs;

/// <summary>Walks the chunks of a WebP file (RFC 9649) to the end that its RIFF header promises.</summary>
internal static class WebpLayout
{
    private const int RiffHeader = 12, ChunkHeader = 8;
    private const byte AnimationFlag = 0x02;

    internal static Outcome<FileLayout> Walk(ReadOnlyMemory<byte> file)
    {
        ReadOnlySpan<byte> bytes = file.Span;
        long end = ChunkHeader + (long)BinaryPrimitives.ReadUInt32LittleEndian(bytes[4..]);
        if (end > bytes.Length) return Truncated($"it should have {end} bytes and has {bytes.Length}");
        bytes = bytes[..(int)end];
        (int Width, int Height)? size = null;
        bool pictureSeen = false;
        for (int at = RiffHeader; at < bytes.Length;)
        {
            if (at + ChunkHeader > bytes.Length) return Truncated("it ends inside a chunk");
            ReadOnlySpan<byte> type = bytes.Slice(at, 4);
            uint length = BinaryPrimitives.ReadUInt32LittleEndian(bytes[(at + 4)..]);
            if (at + ChunkHeader + (long)length > bytes.Length) return Truncated("it ends inside a chunk");
            ReadOnlySpan<byte> content = bytes.Slice(at + ChunkHeader, (int)length);

            if (type.SequenceEqual("VP8X"u8))
            {
                if (content.Length < 10 || size is not null) return Damaged("its header is wrong");
                if ((content[0] & AnimationFlag) != 0) return FileRefusals.ManyFrames(PictureFormat.Webp, "it is animated");
                size = (1 + UInt24(content[4..]), 1 + UInt24(content[7..]));
            }
            else if (type.SequenceEqual("ANIM"u8) || type.SequenceEqual("ANMF"u8)) return FileRefusals.ManyFrames(PictureFormat.Webp, "it is animated");
            else if (type.SequenceEqual("VP8 "u8) || type.SequenceEqual("VP8L"u8))
            {
                (int Width, int Height)? own = type[3] == 'L' ? LosslessSize(content) : LossySize(content);
                if (own is not { Width: > 0, Height: > 0 } || pictureSeen) return Damaged("its picture header is wrong");
                if (size is not null && size != own) return Damaged("it gives two different sizes");
                size = own;
                pictureSeen = true;
            }

            at += ChunkHeader + (int)(length + (length & 1));
        }

        return pictureSeen && size is { } s ? new FileLayout(s.Width, s.Height, file[..bytes.Length], file[..bytes.Length]) : Damaged("it ends without a picture");
    }

    private static int UInt24(ReadOnlySpan<byte> b) => b[0] | b[1] << 8 | b[2] << 16;

    /// <summary>RFC 6386, 9.1: key frame tag, start code, then 14 bits for each side.</summary>
    private static (int, int)? LossySize(ReadOnlySpan<byte> b) => b.Length < 10 || (b[0] & 1) != 0 || UInt24(b[3..]) != 0x2A019D
        ? null
        : (BinaryPrimitives.ReadUInt16LittleEndian(b[6..]) & 0x3FFF, BinaryPrimitives.ReadUInt16LittleEndian(b[8..]) & 0x3FFF);

    /// <summary>RFC 9649, 3.4: signature 0x2F, then each side less one in 14 bits.</summary>
    private static (int, int)? LosslessSize(ReadOnlySpan<byte> b)
    {
        if (b.Length < 5 || b[0] != 0x2F) return null;
        uint bits = BinaryPrimitives.ReadUInt32LittleEndian(b[1..]);
        return ((int)(bits & 0x3FFF) + 1, (int)(bits >> 14 & 0x3FFF) + 1);
    }

    private static Refusal Truncated(string what) => FileRefusals.Truncated(PictureFormat.Webp, what);

    private static Refusal Damaged(string what) => FileRefusals.Damaged(PictureFormat.Webp, what);
}
