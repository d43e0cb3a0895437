using System.Buffers.Binary;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Imaging.Photographs;

/// <summary>Walks the marker structure of a JPEG file (ITU-T T.81, annex B) from start to end of image.</summary>
/// <remarks>
/// The decoder fills what is missing of a scan with grey and says nothing, so a file without its end marker is refused here. The end is found by walking,
/// not by looking for its two bytes: the preview inside the EXIF segment has an end marker of its own. Bytes after the end are allowed: phones
/// append films, gain maps and maker's data.
/// </remarks>
internal static class JpegLayout
{
    private const byte StartOfImage = 0xD8, EndOfImage = 0xD9, StartOfScan = 0xDA, FirstRestart = 0xD0, LastRestart = 0xD7, Temporary = 0x01;

    internal static Outcome<FileLayout> Walk(ReadOnlyMemory<byte> file)
    {
        ReadOnlySpan<byte> bytes = file.Span;
        int widthPx = 0, heightPx = 0;
        bool scanSeen = false;
        int at = 2;
        while (true)
        {
            if (at + 2 > bytes.Length) return Truncated("it ends before its end mark");
            if (bytes[at] != 0xFF) return Damaged($"no marker at byte {at}");
            byte marker = bytes[at + 1];
            if (marker == 0xFF)
            {
                at++;
                continue;
            }

            at += 2;
            if (marker == EndOfImage)
                return widthPx > 0 && scanSeen ? new FileLayout(widthPx, heightPx, file, file) : Damaged("it ends without a picture");
            if (marker is 0 or StartOfImage or Temporary or (>= FirstRestart and <= LastRestart)) return Damaged($"marker {marker:X2} at byte {at - 2} is out of place");

            if (at + 2 > bytes.Length) return Truncated("it ends inside a segment");
            int length = BinaryPrimitives.ReadUInt16BigEndian(bytes[at..]);
            if (length < 2) return Damaged($"the segment at byte {at} has no length");
            if (at + length > bytes.Length) return Truncated("it ends inside a segment");
            ReadOnlySpan<byte> segment = bytes.Slice(at + 2, length - 2);
            at += length;

            if (IsStartOfFrame(marker))
            {
                // A second frame header would let the size that was checked differ from the size that is decoded.
                if (widthPx > 0) return Damaged("it has two frame headers");
                if (segment.Length < 6) return Damaged("its frame header is too short");
                if (segment[0] != 8) return Damaged($"it has {segment[0]} bits per colour, only 8 are read");
                heightPx = BinaryPrimitives.ReadUInt16BigEndian(segment[1..]);
                widthPx = BinaryPrimitives.ReadUInt16BigEndian(segment[3..]);
                if (widthPx == 0 || heightPx == 0) return Damaged("its header gives no size");
            }
            else if (marker == StartOfScan)
            {
                if (widthPx == 0) return Damaged("its picture data comes before its header");
                scanSeen = true;
                at = EndOfScan(bytes, at);
                if (at < 0) return Truncated("its picture data breaks off");
            }
        }
    }

    /// <summary>C0 to CF but for the tables C4 and CC and the reserved C8.</summary>
    private static bool IsStartOfFrame(byte marker) => marker is >= 0xC0 and <= 0xCF and not 0xC4 and not 0xC8 and not 0xCC;

    /// <summary>Where the marker after the entropy-coded data stands; -1 when the file ends first. Stuffed zeros and restart marks belong to the data.</summary>
    private static int EndOfScan(ReadOnlySpan<byte> bytes, int at)
    {
        while (true)
        {
            int next = bytes[at..].IndexOf((byte)0xFF);
            if (next < 0 || at + next + 1 >= bytes.Length) return -1;
            at += next;
            byte marker = bytes[at + 1];
            if (marker == 0xFF) at++;
            else if (marker is 0 or (>= FirstRestart and <= LastRestart)) at += 2;
            else return at;
        }
    }

    private static Refusal Truncated(string what) => FileRefusals.Truncated(PictureFormat.Jpeg, what);

    private static Refusal Damaged(string what) => FileRefusals.Damaged(PictureFormat.Jpeg, what);
}
