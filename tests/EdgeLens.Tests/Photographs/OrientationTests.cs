using EdgeLens.Imaging.Photographs;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Photographs;

/// <summary>
/// EXIF 2.32, tag 0x0112 says for each value which side of the scene the file's row 0 and column 0 show. The test writes the stored picture from the upright one
/// by that table, pixel by pixel, and expects the upright one back.
/// </summary>
public sealed class OrientationTests
{
    private const int Width = 24, Height = 16;

    /// <summary>Where the pixel (x, y) of the upright picture stands in the file, for the table's "row 0 is ..., column 0 is ...".</summary>
    private static (int X, int Y) Stored(int orientation, int x, int y) => orientation switch
    {
        1 => (x, y), // row 0 top, column 0 left
        2 => (Width - 1 - x, y), // top, right
        3 => (Width - 1 - x, Height - 1 - y), // bottom, right
        4 => (x, Height - 1 - y), // bottom, left
        5 => (y, x), // row 0 left, column 0 top
        6 => (y, Width - 1 - x), // row 0 right, column 0 top
        7 => (Height - 1 - y, Width - 1 - x), // right, bottom
        8 => (Height - 1 - y, x), // left, bottom
        _ => throw new ArgumentOutOfRangeException(nameof(orientation)),
    };

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    public void Every_EXIF_orientation_is_turned_upright_in_every_format(int orientation)
    {
        using Mat upright = MadePictures.Noise(MatType.CV_8UC3, Width, Height);
        using Mat stored = orientation >= 5 ? new Mat(Width, Height, MatType.CV_8UC3) : new Mat(Height, Width, MatType.CV_8UC3);
        for (int y = 0; y < Height; y++)
        {
            for (int x = 0; x < Width; x++)
            {
                (int sx, int sy) = Stored(orientation, x, y);
                stored.Set(sy, sx, upright.Get<Vec3b>(y, x));
            }
        }

        byte[] exif = MadePictures.Exif(orientation), png = MadePictures.Encode(stored, ".png"), webp = MadePictures.Encode(stored, ".webp");
        Check("a.jpg", MadePictures.WithExif(MadePictures.Encode(stored, ".jpg", (int)ImwriteFlags.JpegQuality, 100, MadePictures.JpegSamplingFactor, MadePictures.NoSubsampling), exif), 8);
        Check("a.png", WithPngExif(png, exif), 0);
        Check("a.webp", WithWebpExif(webp, exif, stored.Cols, stored.Rows), 0);
        Check("a.tif", MadePictures.TiffByHand(orientation, bigEndian: false, stored), 0);
        Check("b.tif", MadePictures.TiffByHand(orientation, bigEndian: true, stored), 0);

        void Check(string name, byte[] bytes, double maxMeanDifference)
        {
            using Photograph photograph = PhotographReader.Read(bytes, name, MadePictures.AnySize).Value;
            Assert.Equal((Width, Height, orientation), (photograph.WidthPx, photograph.HeightPx, photograph.Source.Orientation));
            // Full-range colour noise does not fit into JPEG's Y Cb Cr; a wrongly turned noise picture differs by 85 (mean of |a - b| over 0..255).
            Assert.InRange(PhotographReaderTests.MeanDifference(upright, photograph.Bgr), 0, maxMeanDifference);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(9)]
    [InlineData(300)]
    public void A_meaningless_orientation_is_read_as_upright(int orientation)
    {
        byte[] bytes = MadePictures.WithExif(MadePictures.Encode(".jpg"), MadePictures.Exif(orientation));
        using Photograph photograph = PhotographReader.Read(bytes, "a.jpg", MadePictures.AnySize).Value;
        Assert.Equal((60, 44, 1), (photograph.WidthPx, photograph.HeightPx, photograph.Source.Orientation));
    }

    private static byte[] WithPngExif(byte[] png, byte[] exif)
    {
        int afterHeader = 8 + 25;
        byte[] chunk = MadePictures.Png(("eXIf", exif))[8..];
        return [.. png[..afterHeader], .. chunk, .. png[afterHeader..]];
    }

    /// <summary>RFC 9649, 2.7: the extended form, with the EXIF flag and chunk.</summary>
    private static byte[] WithWebpExif(byte[] webp, byte[] exif, int widthPx, int heightPx)
    {
        byte[] pad = exif.Length % 2 == 0 ? [] : [0];
        byte[] body =
        [
            .. "WEBPVP8X"u8, 10, 0, 0, 0, 0x08, 0, 0, 0, (byte)(widthPx - 1), 0, 0, (byte)(heightPx - 1), 0, 0,
            .. webp[12..], .. "EXIF"u8, .. BitConverter.GetBytes(exif.Length), .. exif, .. pad,
        ];
        return [.. "RIFF"u8, .. BitConverter.GetBytes(body.Length), .. body];
    }
}
