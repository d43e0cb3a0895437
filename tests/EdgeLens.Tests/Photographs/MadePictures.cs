using System.Buffers.Binary;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Photographs;

/// <summary>Small picture files made by OpenCV's encoders and by hand, and the limits that let them pass.</summary>
internal static class MadePictures
{
    /// <summary>Encoder settings that the wrapper has no name for (IMWRITE_TIFF_ROWSPERSTRIP, IMWRITE_JPEG_SAMPLING_FACTOR and its 4:4:4).</summary>
    internal const int TiffRowsPerStrip = 278, JpegSamplingFactor = 7, NoSubsampling = 0x111111;

    /// <summary>The real limits but for the least size, so that a test can work on pictures of a few thousand pixels.</summary>
    internal static PhotographLimits AnySize { get; } = new() { MinShortSidePx = 1 };

    /// <summary>Random tones, so that no stretch of a file can be lost without a visible change; 60 x 44, no multiple of a JPEG block.</summary>
    internal static Mat Noise(MatType type, int widthPx = 60, int heightPx = 44)
    {
        using Mat bytes = new(heightPx, widthPx, MatType.CV_8UC(type.Channels));
        Random random = new(20250105);
        for (int y = 0; y < heightPx; y++) random.NextBytes(bytes.RowSpan<byte>(y));
        Mat picture = new();
        // 257 makes of byte b the 16-bit number bb: every way of cutting it to 8 bits gives b again.
        bytes.ConvertTo(picture, type, type.Depth == MatType.CV_16U ? 257 : 1);
        return picture;
    }

    internal static byte[] Encode(Mat picture, string extension, params int[] parameters)
    {
        Assert.True(Cv2.ImEncode(extension, picture, out byte[] bytes, parameters));
        return bytes;
    }

    internal static byte[] Encode(string extension, params int[] parameters)
    {
        using Mat picture = Noise(MatType.CV_8UC3);
        return Encode(picture, extension, parameters);
    }

    /// <summary>One file of each kind and inner form, by name.</summary>
    internal static IEnumerable<(string Name, byte[] Bytes)> OneOfEach()
    {
        yield return ("baseline.jpg", Encode(".jpg"));
        yield return ("progressive.jpg", Encode(".jpg", (int)ImwriteFlags.JpegProgressive, 1));
        yield return ("restarts.jpg", Encode(".jpg", (int)ImwriteFlags.JpegRstInterval, 2));
        yield return ("preview.jpg", WithExif(Encode(".jpg"), [.. Exif(1), .. Encode(".jpg")]));
        yield return ("plain.png", Encode(".png"));
        yield return ("lossless.webp", Encode(".webp"));
        yield return ("lossy.webp", Encode(".webp", (int)ImwriteFlags.WebPQuality, 80));
        yield return ("uncompressed.tif", Encode(".tiff", (int)ImwriteFlags.TiffCompression, 1, TiffRowsPerStrip, 10));
        yield return ("lzw.tif", Encode(".tiff", (int)ImwriteFlags.TiffCompression, 5));
        yield return ("deflate.tif", Encode(".tiff", (int)ImwriteFlags.TiffCompression, 8));
        yield return ("directory-first.tif", TiffByHand(1, bigEndian: false));
        yield return ("big-endian.tif", TiffByHand(1, bigEndian: true));
    }

    /// <summary>An EXIF segment with one orientation tag, put behind the start of a JPEG file.</summary>
    internal static byte[] WithExif(byte[] jpeg, byte[] exif)
    {
        byte[] length = new byte[2];
        BinaryPrimitives.WriteUInt16BigEndian(length, (ushort)(exif.Length + 8));
        return [.. jpeg[..2], 0xFF, 0xE1, .. length, .. "Exif\0\0"u8, .. exif, .. jpeg[2..]];
    }

    /// <summary>An EXIF block (a small TIFF) with orientation, make, model, date and focal length 4.25 mm.</summary>
    internal static byte[] Exif(int orientation)
    {
        byte[] make = [.. "Ashby Optics\0"u8], model = [.. "Field 3\0"u8], date = [.. "2025:03:09 14:05:06\0"u8];
        int ifd = 8, after = ifd + 2 + 4 * 12 + 4, sub = after + make.Length + model.Length, afterSub = sub + 2 + 2 * 12 + 4;
        MemoryStream s = new();
        s.Write([.. "II*\0"u8, .. U32(8), .. U16(4)]);
        s.Write([.. Entry(271, 2, make.Length, after), .. Entry(272, 2, model.Length, after + make.Length), .. Entry(274, 3, 1, orientation), .. Entry(34665, 4, 1, sub), .. U32(0)]);
        s.Write([.. make, .. model]);
        s.Write([.. U16(2), .. Entry(36867, 2, date.Length, afterSub), .. Entry(37386, 5, 1, afterSub + date.Length), .. U32(0)]);
        s.Write([.. date, .. U32(425), .. U32(100)]);
        return s.ToArray();

        static byte[] Entry(int tag, int type, int count, int value) => [.. U16(tag), .. U16(type), .. U32(count), .. U32(value)];
    }

    /// <summary>An uncompressed TIFF of the same noise whose directory stands before the pixels, so that a cut file still has it.</summary>
    internal static byte[] TiffByHand(int orientation, bool bigEndian, Mat? picture = null)
    {
        using Mat noise = Noise(MatType.CV_8UC3);
        picture ??= noise;
        using Mat rgb = new();
        Cv2.CvtColor(picture, rgb, ColorConversionCodes.BGR2RGB);
        MemoryStream pixels = new();
        int rows = rgb.Rows;
        for (int y = 0; y < rows; y++) pixels.Write(System.Runtime.InteropServices.MemoryMarshal.AsBytes(rgb.RowSpan<Vec3b>(y)));
        (int Tag, int Type, int Value)[] tags =
        [
            (256, 3, rgb.Cols), (257, 3, rows), (258, 3, 8), (259, 3, 1), (262, 3, 2), (273, 4, 8 + 2 + 11 * 12 + 4 + 6),
            (274, 3, orientation), (277, 3, 3), (278, 3, rows), (279, 4, (int)pixels.Length), (284, 3, 1),
        ];
        MemoryStream s = new();
        s.Write(bigEndian ? "MM\0*"u8 : "II*\0"u8);
        s.Write([.. L(8), .. S(tags.Length)]);
        foreach ((int tag, int type, int value) in tags)
        {
            bool bits = tag == 258;
            s.Write([.. S(tag), .. S(type), .. L(bits ? 3 : 1), .. bits ? L(8 + 2 + 11 * 12 + 4) : type == 3 ? [.. S(value), .. S(0)] : L(value)]);
        }

        s.Write([.. L(0), .. S(8), .. S(8), .. S(8), .. pixels.ToArray()]);
        return s.ToArray();

        byte[] S(int v) => bigEndian ? [.. U16(v).Reverse()] : U16(v);
        byte[] L(int v) => bigEndian ? [.. U32(v).Reverse()] : U32(v);
    }

    /// <summary>A PNG file of the given chunks with right checksums.</summary>
    internal static byte[] Png(params (string Type, byte[] Content)[] chunks) =>
    [
        .. PngChunk.Signature, .. chunks.SelectMany(c => PngChunk.Make(c.Type, c.Content)),
    ];

    /// <summary>Content of a PNG header for 8-bit colour.</summary>
    internal static byte[] PngHeader(int widthPx, int heightPx) => [.. U32(widthPx).Reverse(), .. U32(heightPx).Reverse(), 8, 2, 0, 0, 0];

    private static byte[] U16(int v)
    {
        byte[] b = new byte[2];
        BinaryPrimitives.WriteUInt16LittleEndian(b, (ushort)v);
        return b;
    }

    private static byte[] U32(int v)
    {
        byte[] b = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(b, v);
        return b;
    }
}
