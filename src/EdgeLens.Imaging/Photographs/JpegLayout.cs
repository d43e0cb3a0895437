using System.Buffers.Binary;
using System.Runtime.InteropServices;
using EdgeLens.Geometry.Figures;
using OpenCvSharp;

namespace EdgeLens.Imaging.Photographs;

/// <summary>Walks the marker structure of a JPEG file (ITU-T T.81, annex B) from start to end of image.</summary>
/// <remarks>
/// The end is found by walking, not by looking for its two bytes: the preview inside the EXIF segment has an end marker of its own. Every coefficient of every
/// colour must have been sent to its last bit by then. Bytes after the end are allowed: phones append films, gain maps and maker's data.
/// A scan that breaks off and is followed by an end marker all the same (some tools "repair" files so) cannot be seen in the structure, and the decoder
/// fills the rest with grey without a word: <see cref="EndsInFiller"/> sees it in the pixels, but for the file's last block. In a progressive file the
/// fine detail that the last scans lack is not noticed.
/// </remarks>
internal static class JpegLayout
{
    private const byte StartOfImage = 0xD8, EndOfImage = 0xD9, StartOfScan = 0xDA, FirstRestart = 0xD0, LastRestart = 0xD7, Temporary = 0x01;

    /// <summary>Half a block: in the smallest last block that a picture's size leaves, what its neighbours blend into is no more than that.</summary>
    private const int FillerCornerPx = 4;

    internal static Outcome<FileLayout> Walk(ReadOnlyMemory<byte> file)
    {
        ReadOnlySpan<byte> bytes = file.Span;
        int widthPx = 0, heightPx = 0;
        Dictionary<byte, ulong> sent = [];
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
            {
                if (sent.Count == 0) return Damaged("it ends without a picture");
                return sent.Values.All(coefficients => coefficients == ulong.MaxValue) ? new FileLayout(widthPx, heightPx, file, file) : Truncated("a part of its picture data is missing");
            }

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
                int components = segment[5];
                if (segment.Length != 6 + 3 * components) return Damaged("its frame header is too short");
                for (int i = 0; i < components; i++) sent[segment[6 + 3 * i]] = 0;
            }
            else if (marker == StartOfScan)
            {
                if (widthPx == 0) return Damaged("its picture data comes before its header");
                if (!NoteSent(segment, sent)) return Damaged($"the scan header at byte {at} is wrong");
                at = EndOfScan(bytes, at);
                if (at < 0) return Truncated("its picture data breaks off");
            }
        }
    }

    /// <summary>
    /// True when the picture's last corner is the grey that the decoder puts where data are missing: all three colours exactly half (a zero block), without any noise.
    /// No camera makes such a corner.
    /// </summary>
    /// <param name="bgr">CV_8UC3 as decoded, not yet turned; borrowed.</param>
    internal static bool EndsInFiller(Mat bgr)
    {
        (int rows, int cols) = (bgr.Rows, bgr.Cols);
        for (int y = Math.Max(0, rows - FillerCornerPx); y < rows; y++)
            if (MemoryMarshal.AsBytes(bgr.RowSpan<Vec3b>(y)[Math.Max(0, cols - FillerCornerPx)..]).ContainsAnyExcept((byte)128)) return false;
        return true;
    }

    /// <summary>Marks the coefficients that a scan header (T.81, B.2.3) sends to their last bit; false when the header contradicts itself or the frame.</summary>
    private static bool NoteSent(ReadOnlySpan<byte> header, Dictionary<byte, ulong> sent)
    {
        int components = header.IsEmpty ? 0 : header[0];
        if (components is 0 or > 4 || header.Length != 4 + 2 * components) return false;
        int first = header[^3], last = header[^2], lowestBit = header[^1] & 15;
        if (first > last || last > 63) return false;
        ulong coefficients = lowestBit > 0 ? 0 : ulong.MaxValue >> (63 - last) & ulong.MaxValue << first;
        for (int i = 0; i < components; i++)
        {
            byte component = header[1 + 2 * i];
            if (!sent.TryGetValue(component, out ulong before)) return false;
            sent[component] = before | coefficients;
        }

        return true;
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
