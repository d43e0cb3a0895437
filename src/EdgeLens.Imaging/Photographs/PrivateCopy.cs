using System.Buffers.Binary;
using System.Text;
using SixLabors.ImageSharp.Metadata.Profiles.Exif;

namespace EdgeLens.Imaging.Photographs;

/// <summary>
/// A copy of a photograph that may leave the practice: the same pixels to the last bit, and of all metadata only what measuring needs (orientation, camera, focal
/// length, colour profile). A list of what to keep is safer than a list of what to drop: positions also stand in XMP, in makers' notes and behind the picture's end.
/// </summary>
/// <param name="Bytes">The file.</param>
/// <param name="Extension">Of its name, with the dot.</param>
public sealed record PrivateCopy(ReadOnlyMemory<byte> Bytes, string Extension)
{
    private const byte EndOfImage = 0xD9, StartOfScan = 0xDA, Exif = 0xE1;

    private static ReadOnlySpan<byte> ExifHead => "Exif\0\0"u8;

    /// <summary>Makes the copy; null for kinds of file (TIFF, WebP) in which picture and metadata cannot be told apart by copying segments.</summary>
    /// <param name="file">A whole photograph, as the reader accepts it.</param>
    public static PrivateCopy? Of(ReadOnlyMemory<byte> file) => PictureFormat.Of(file.Span) switch
    {
        { } f when f == PictureFormat.Jpeg => new(Jpeg(file.Span), ".jpg"),
        { } f when f == PictureFormat.Png => new(Png(file.Span), ".png"),
        _ => null,
    };

    /// <summary>ITU-T T.81, annex B: segments up to the first scan, then scans to the end of image; nothing behind it.</summary>
    private static byte[] Jpeg(ReadOnlySpan<byte> file)
    {
        using MemoryStream copy = new();
        copy.Write(file[..2]);
        int at = 2;
        while (at + 4 <= file.Length)
        {
            byte marker = file[at + 1];
            if (marker == 0xFF)
            {
                at++;
                continue;
            }
            if (marker == EndOfImage) break;
            int length = 2 + BinaryPrimitives.ReadUInt16BigEndian(file[(at + 2)..]);
            ReadOnlySpan<byte> segment = file.Slice(at, Math.Min(length, file.Length - at));
            if (marker == Exif && segment[4..].StartsWith(ExifHead)) WriteExif(copy, segment[(4 + ExifHead.Length)..]);
            // Of the application segments: JFIF, colour profile, and Adobe's word on the colours; no comments.
            else if (marker is not (>= 0xE0 and <= 0xEF or 0xFE) || marker == 0xE0 || marker == 0xEE || (marker == 0xE2 && segment[4..].StartsWith("ICC_PROFILE"u8))) copy.Write(segment);
            at += segment.Length;
            if (marker != StartOfScan) continue;
            int end = at;
            // In coded data FF is followed by 0 or a restart mark.
            while (end + 1 < file.Length && !(file[end] == 0xFF && file[end + 1] is not (0 or (>= 0xD0 and <= 0xD7)))) end++;
            copy.Write(file[at..end]);
            at = end;
        }
        copy.Write([0xFF, EndOfImage]);
        return copy.ToArray();
    }

    private static void WriteExif(MemoryStream copy, ReadOnlySpan<byte> tiff)
    {
        ExifProfile from = new(tiff.ToArray()), to = new();
        Keep(ExifTag.Orientation);
        Keep(ExifTag.Make);
        Keep(ExifTag.Model);
        Keep(ExifTag.FocalLength);
        Keep(ExifTag.FocalLengthIn35mmFilm);
        Keep(ExifTag.DateTimeOriginal);
        if (to.Values.Count == 0 || to.ToByteArray() is not { Length: > 0 } kept) return;
        Span<byte> head = [0xFF, Exif, 0, 0];
        BinaryPrimitives.WriteUInt16BigEndian(head[2..], (ushort)(2 + ExifHead.Length + kept.Length));
        copy.Write(head);
        copy.Write(ExifHead);
        copy.Write(kept);

        void Keep<T>(ExifTag<T> tag)
        {
            if (from.GetValue(tag) is { } value) to.SetValue(tag, value.Value);
        }
    }

    /// <summary>PNG (ISO/IEC 15948), 5.3: chunks; the picture, its colours and its resolution are kept.</summary>
    private static byte[] Png(ReadOnlySpan<byte> file)
    {
        string[] kept = ["IHDR", "PLTE", "IDAT", "IEND", "tRNS", "gAMA", "cHRM", "sRGB", "iCCP", "sBIT", "pHYs", "bKGD"];
        using MemoryStream copy = new();
        copy.Write(file[..8]);
        for (int at = 8; at + 12 <= file.Length;)
        {
            int length = 12 + BinaryPrimitives.ReadInt32BigEndian(file[at..]);
            if (length < 12 || at + length > file.Length) break;
            string type = Encoding.ASCII.GetString(file.Slice(at + 4, 4));
            if (kept.Contains(type)) copy.Write(file.Slice(at, length));
            at += length;
            if (type == "IEND") break;
        }
        return copy.ToArray();
    }
}
