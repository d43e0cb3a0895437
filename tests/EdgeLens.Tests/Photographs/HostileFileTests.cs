using System.Diagnostics;
using System.IO.Compression;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Photographs;
using Xunit;

namespace EdgeLens.Tests.Photographs;

/// <summary>Files that are no photograph, lie about themselves or want to be dangerous: each is refused with its code.</summary>
public sealed class HostileFileTests
{
    /// <summary>Where the hand-made TIFF says where its next directory stands.</summary>
    private const int NextDirectory = 8 + 2 + 11 * 12;

    [Fact]
    public void An_empty_file_is_refused() => Assert.Equal("file-empty", PhotographReaderTests.Refused([], "a.jpg").Code);

    [Fact]
    public void A_file_over_the_limit_is_refused_with_size_and_limit()
    {
        byte[] bytes = MadePictures.Encode(".png");
        Refusal refusal = PhotographReaderTests.Refused(bytes, "a.png", MadePictures.AnySize with { MaxFileBytes = bytes.Length - 1 });
        Assert.Equal("file-too-large", refusal.Code);
        Assert.Equal(bytes.Length / 1e6, refusal.Figure!.Value, 1e-9);
        Assert.Equal((bytes.Length - 1) / 1e6, refusal.Limit!.Value, 1e-9);
    }

    [Theory]
    [InlineData("GIF89a\u0001\0\u0001\0", "GIF")]
    [InlineData("BM\u0036\0\0\0", "BMP")]
    [InlineData("%PDF-1.7\n", "PDF")]
    [InlineData("PK\u0003\u0004\u0014\0", "ZIP")]
    [InlineData("\0\0\0\u0018ftypheic\0\0\0\0", "HEIC")]
    [InlineData("II+\0\u0008\0\0\0", "BigTIFF")]
    [InlineData("Dear practice, please find the photograph below.", "text")]
    [InlineData("\u0001\u0002\u0003\u0004", "unknown")]
    public void A_file_of_another_kind_is_named(string content, string what)
    {
        byte[] bytes = [.. content.Select(c => (byte)c)];
        Refusal refusal = PhotographReaderTests.Refused(bytes, "photo.jpg");
        Assert.Equal("file-not-a-picture", refusal.Code);
        Assert.Contains(what, refusal.Reason);
    }

    [Theory]
    [InlineData(".png", "photo.jpg", "PNG")]
    [InlineData(".jpg", "photo.png", "JPEG")]
    [InlineData(".webp", "photo.tif", "WebP")]
    [InlineData(".tiff", "photo.txt", "TIFF")]
    public void A_misnamed_file_is_told_what_it_is(string kind, string name, string what)
    {
        Refusal refusal = PhotographReaderTests.Refused(MadePictures.Encode(kind), name);
        Assert.Equal("file-misnamed", refusal.Code);
        Assert.Contains(what, refusal.Reason);
    }

    [Theory]
    [InlineData(".jpg", "IMG_0001.JPG")]
    [InlineData(".jpg", "IMG_0001.jpeg")]
    [InlineData(".tiff", "scan.TIF")]
    [InlineData(".png", "no-extension")]
    public void The_usual_names_of_a_format_are_right(string kind, string name)
    {
        using Photograph photograph = PhotographReader.Read(MadePictures.Encode(kind), name, MadePictures.AnySize).Value;
        Assert.Equal(name, photograph.Source.FileName);
    }

    [Fact]
    public void A_header_that_promises_60000_by_60000_pixels_is_refused_before_decoding()
    {
        byte[] bomb = MadePictures.Png(("IHDR", MadePictures.PngHeader(60_000, 60_000)), ("IDAT", Deflate(new byte[1000])), ("IEND", []));
        Refusal refusal = PhotographReaderTests.Refused(bomb, "a.png");
        Assert.Equal("picture-too-large", refusal.Code);
        Assert.Equal(3600, refusal.Figure!.Value);
        Assert.Equal(50.5, refusal.Limit!.Value);
    }

    [Theory]
    [InlineData(8192, 6144, false)] // a sensor sold as 50 megapixels
    [InlineData(8192, 6200, true)]
    public void The_pixel_limit_lets_a_50_megapixel_phone_pass(int widthPx, int heightPx, bool tooLarge)
    {
        // The picture data are too short on purpose: past the limit's check the decoder refuses them without taking time for 50 megapixels.
        byte[] file = MadePictures.Png(("IHDR", MadePictures.PngHeader(widthPx, heightPx)), ("IDAT", Deflate(new byte[1000])), ("IEND", []));
        Assert.Equal(tooLarge ? "picture-too-large" : "file-damaged", PhotographReaderTests.Refused(file, "a.png", PhotographLimits.Default).Code);
    }

    [Theory]
    [InlineData(0, 44)]
    [InlineData(60, 0)]
    [InlineData(-1, 44)]
    public void A_header_without_a_size_is_refused(int widthPx, int heightPx) => Assert.Equal(
        "file-damaged",
        PhotographReaderTests.Refused(MadePictures.Png(("IHDR", MadePictures.PngHeader(widthPx, heightPx)), ("IDAT", Deflate(new byte[1000])), ("IEND", [])), "a.png").Code);

    [Fact]
    public void A_preview_is_refused_as_too_small()
    {
        Refusal refusal = PhotographReaderTests.Refused(MadePictures.Encode(".jpg"), "a.jpg", PhotographLimits.Default);
        Assert.Equal("picture-too-small", refusal.Code);
        Assert.Equal((44.0, 480.0), (refusal.Figure!.Value, refusal.Limit!.Value));
    }

    [Fact]
    public void Compressed_text_that_unpacks_to_half_a_gigabyte_costs_no_time()
    {
        byte[] text = [.. "Comment\0\0"u8, .. Deflate(new byte[500_000_000])];
        byte[] plain = MadePictures.Encode(".png");
        byte[] file = [.. plain[..33], .. MadePictures.Png(("zTXt", text))[8..], .. plain[33..]];
        Stopwatch time = Stopwatch.StartNew();
        using Photograph photograph = PhotographReader.Read(file, "a.png", MadePictures.AnySize).Value;
        // Shown to the metadata reader whole, this file takes 17 s (and its memory); 2 s leave room for a slow machine.
        Assert.InRange(time.Elapsed.TotalSeconds, 0, 2);
    }

    [Fact]
    public void A_PNG_with_fewer_rows_than_its_header_says_is_refused()
    {
        byte[] half = new byte[22 * (1 + 60 * 3)];
        byte[] file = MadePictures.Png(("IHDR", MadePictures.PngHeader(60, 44)), ("IDAT", Deflate(half)), ("IEND", []));
        Assert.Equal("file-damaged", PhotographReaderTests.Refused(file, "a.png").Code);
    }

    [Fact]
    public void Animated_pictures_are_refused()
    {
        byte[] plain = MadePictures.Encode(".png");
        byte[] animated = [.. plain[..33], .. MadePictures.Png(("acTL", [0, 0, 0, 2, 0, 0, 0, 0]))[8..], .. plain[33..]];
        Assert.Equal("file-not-a-picture", PhotographReaderTests.Refused(animated, "a.png").Code);

        byte[] webp = [.. "RIFF"u8, 22, 0, 0, 0, .. "WEBPVP8X"u8, 10, 0, 0, 0, 0x02, 0, 0, 0, 59, 0, 0, 43, 0, 0];
        Assert.Equal("file-not-a-picture", PhotographReaderTests.Refused(webp, "a.webp").Code);
    }

    [Fact]
    public void A_TIFF_of_several_pages_is_refused()
    {
        byte[] one = MadePictures.TiffByHand(1, bigEndian: false);
        byte[] two = [.. one, .. one[8..(NextDirectory + 4)]];
        BitConverter.GetBytes(one.Length).CopyTo(two, NextDirectory);
        Assert.Equal("file-not-a-picture", PhotographReaderTests.Refused(two, "a.tif").Code);
    }

    [Fact]
    public void A_TIFF_directory_that_points_to_itself_ends()
    {
        byte[] file = MadePictures.TiffByHand(1, bigEndian: false);
        file[NextDirectory] = 8;
        Assert.Equal("file-not-a-picture", PhotographReaderTests.Refused(file, "a.tif").Code);
    }

    [Fact]
    public void A_second_frame_header_in_a_JPEG_is_refused()
    {
        byte[] plain = MadePictures.Encode(".jpg");
        int frame = plain.AsSpan().IndexOf((byte[])[0xFF, 0xC0]);
        int length = 2 + plain[frame + 2] * 256 + plain[frame + 3];
        byte[] file = [.. plain[..frame], .. plain[frame..(frame + length)], .. plain[frame..]];
        Assert.Equal("file-damaged", PhotographReaderTests.Refused(file, "a.jpg").Code);
    }

    [Fact]
    public void What_a_phone_appends_behind_a_JPEG_does_no_harm()
    {
        byte[] file = [.. MadePictures.Encode(".jpg"), .. "a short film"u8];
        using Photograph photograph = PhotographReader.Read(file, "a.jpg", MadePictures.AnySize).Value;
        Assert.Equal(60, photograph.WidthPx);
    }

    private static byte[] Deflate(byte[] bytes)
    {
        using MemoryStream packed = new();
        using (ZLibStream z = new(packed, CompressionLevel.Fastest, leaveOpen: true)) z.Write(bytes);
        return packed.ToArray();
    }
}
