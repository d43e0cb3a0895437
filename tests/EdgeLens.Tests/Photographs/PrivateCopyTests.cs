using System.Text;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Metadata.Profiles.Exif;
using Xunit;

namespace EdgeLens.Tests.Photographs;

/// <summary>A copy that leaves the practice: the same pixels, no place, no person.</summary>
public sealed class PrivateCopyTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_JPEG_keeps_pixels_orientation_and_lens_and_loses_place_owner_notes_and_what_hangs_behind(bool isProgressive)
    {
        byte[] plain = MadePictures.Encode(".jpg", (int)ImwriteFlags.JpegProgressive, isProgressive ? 1 : 0);
        ExifProfile exif = new();
        exif.SetValue(ExifTag.Orientation, (ushort)6);
        exif.SetValue(ExifTag.FocalLength, new Rational(425, 100));
        exif.SetValue(ExifTag.Model, "Phone");
        exif.SetValue(ExifTag.Artist, "SECRET owner");
        exif.SetValue(ExifTag.GPSLatitude, [new Rational(52, 1), new Rational(30, 1), new Rational(0, 1)]);
        exif.SetValue(ExifTag.GPSLatitudeRef, "N");
        byte[] xmp = Segment(0xE1, [.. "http://ns.adobe.com/xap/1.0/\0"u8, .. "<exif:GPSLatitude>SECRET</exif:GPSLatitude>"u8]);
        byte[] comment = Segment(0xFE, "SECRET comment"u8);
        byte[] file = [0xFF, 0xD8, .. Segment(0xE1, [.. "Exif\0\0"u8, .. exif.ToByteArray()!]), .. xmp, .. comment, .. plain[2..], .. "SECRET film behind the picture"u8];
        // The file itself is a photograph with a position, by a reader that knows nothing of the copy.
        Assert.NotNull(Image.Identify(file).Metadata.ExifProfile!.GetValue(ExifTag.GPSLatitude));

        PrivateCopy copy = PrivateCopy.Of(file)!;
        byte[] bytes = copy.Bytes.ToArray();
        Assert.Equal(".jpg", copy.Extension);
        Assert.DoesNotContain("SECRET", Encoding.Latin1.GetString(bytes), StringComparison.Ordinal);
        ExifProfile kept = Image.Identify(bytes).Metadata.ExifProfile!;
        Assert.Null(kept.GetValue(ExifTag.GPSLatitude));
        Assert.Equal((6, 4.25, "Phone"), (kept.GetValue(ExifTag.Orientation)!.Value, kept.GetValue(ExifTag.FocalLength)!.Value.ToDouble(), kept.GetValue(ExifTag.Model)!.Value));
        AssertSamePixels(file, bytes);
        Assert.True(PhotographReader.Read(bytes, "copy.jpg", MadePictures.AnySize).TryGet(out Photograph? photograph, out _));
        photograph.Dispose();
    }

    [Fact]
    public void A_PNG_keeps_its_pixels_and_loses_its_texts()
    {
        byte[] plain = MadePictures.Encode(".png");
        byte[] text = [0, 0, 0, 14, .. "tEXt"u8, .. "Comment\0SECRET"u8, 0, 0, 0, 0];
        // Behind the header chunk: 8 of the signature and 25 of IHDR (ISO/IEC 15948, 11.2.2).
        byte[] file = [.. plain[..33], .. text, .. plain[33..]];
        PrivateCopy copy = PrivateCopy.Of(file)!;
        Assert.Equal(plain, copy.Bytes.ToArray());
    }

    [Fact]
    public void A_file_in_which_nothing_can_be_told_apart_gives_no_copy() => Assert.Null(PrivateCopy.Of(MadePictures.Encode(".webp")));

    private static byte[] Segment(byte marker, ReadOnlySpan<byte> content) => [0xFF, marker, (byte)((content.Length + 2) >> 8), (byte)(content.Length + 2), .. content];

    private static void AssertSamePixels(byte[] expected, byte[] actual)
    {
        using Mat a = Cv2.ImDecode(expected, ImreadModes.Color | ImreadModes.IgnoreOrientation), b = Cv2.ImDecode(actual, ImreadModes.Color | ImreadModes.IgnoreOrientation);
        Assert.Equal(0, Cv2.Norm(a, b));
    }
}
