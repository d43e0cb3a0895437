using System.Security.Cryptography;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Photographs;

public sealed class PhotographReaderTests
{
    [Theory]
    [InlineData(".png", 0)]
    [InlineData(".tiff", 0)]
    [InlineData(".webp", 0)]
    // Quality 100 still rounds 64 frequency values to whole numbers (sd 0.29 tone values each, so also each pixel, in each of Y, Cb, Cr); noise of full range adds
    // clipping of colours that the conversion to Y Cb Cr cannot hold. Grey noise only rounds.
    [InlineData(".jpg", 1.0)]
    public void Every_format_gives_back_the_pixels_that_OpenCV_wrote(string extension, double maxMeanDifference)
    {
        using Mat grey = MadePictures.Noise(MatType.CV_8UC1);
        using Mat colour = new();
        Cv2.CvtColor(grey, colour, ColorConversionCodes.GRAY2BGR);
        using Mat picture = extension == ".jpg" ? colour.Clone() : MadePictures.Noise(MatType.CV_8UC3);
        byte[] bytes = MadePictures.Encode(picture, extension, extension == ".jpg" ? [(int)ImwriteFlags.JpegQuality, 100] : []);

        using Photograph photograph = PhotographReader.Read(bytes, "IMG_0001" + extension, MadePictures.AnySize).Value;

        Assert.Equal((60, 44), (photograph.WidthPx, photograph.HeightPx));
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(bytes)), photograph.Source.Sha256);
        Assert.Equal("IMG_0001" + extension, photograph.Source.FileName);
        Assert.InRange(MeanDifference(picture, photograph.Bgr), 0, maxMeanDifference);
    }

    [Theory]
    [InlineData(".png", 2, 1)]
    [InlineData(".png", 0, 1)]
    [InlineData(".png", 0, 4)]
    [InlineData(".png", 2, 4)]
    [InlineData(".png", 2, 3)]
    [InlineData(".tiff", 2, 1)]
    [InlineData(".tiff", 0, 1)]
    [InlineData(".tiff", 2, 3)]
    [InlineData(".webp", 0, 4)]
    public void Grey_sixteen_bit_and_transparent_pictures_become_eight_bit_colour(string extension, int depth, int channels)
    {
        using Mat picture = MadePictures.Noise(MatType.MakeType(depth, channels));
        if (channels == 4)
        {
            // Fully opaque: what a transparent pixel's colour should be is not defined.
            using Mat alpha = new(picture.Size(), MatType.MakeType(depth, 1), Scalar.All(depth == 0 ? 255 : 65535));
            Cv2.InsertChannel(alpha, picture, 3);
        }

        using Photograph photograph = PhotographReader.Read(MadePictures.Encode(picture, extension), "a" + extension, MadePictures.AnySize).Value;

        using Mat eight = new(), expected = new();
        picture.ConvertTo(eight, MatType.CV_8U, depth == 2 ? 1 / 257.0 : 1);
        if (channels == 1) Cv2.CvtColor(eight, expected, ColorConversionCodes.GRAY2BGR);
        else if (channels == 4) Cv2.CvtColor(eight, expected, ColorConversionCodes.BGRA2BGR);
        else eight.CopyTo(expected);
        Assert.Equal(0, MeanDifference(expected, photograph.Bgr));
    }

    [Fact]
    public void Grey_is_the_luma_of_BT_601()
    {
        using Photograph photograph = PhotographReader.Read(MadePictures.Encode(".png"), "a.png", MadePictures.AnySize).Value;
        for (int y = 0; y < photograph.HeightPx; y++)
        {
            ReadOnlySpan<Vec3b> bgr = photograph.Bgr.RowSpan<Vec3b>(y);
            ReadOnlySpan<byte> grey = photograph.Grey.RowSpan<byte>(y);
            // ITU-R BT.601-7, 2.5.1; rounded once, in fixed point.
            for (int x = 0; x < grey.Length; x++)
                Assert.Equal(0.299 * bgr[x].Item2 + 0.587 * bgr[x].Item1 + 0.114 * bgr[x].Item0, grey[x], 0.51);
        }
    }

    [Fact]
    public void Camera_and_time_come_from_EXIF()
    {
        byte[] bytes = MadePictures.WithExif(MadePictures.Encode(".jpg"), MadePictures.Exif(1));
        using Photograph photograph = PhotographReader.Read(bytes, "a.jpg", MadePictures.AnySize).Value;
        PhotographSource source = photograph.Source;
        Assert.Equal(("Ashby Optics", "Field 3", 4.25, new DateTime(2025, 3, 9, 14, 5, 6)), (source.CameraMake, source.CameraModel, source.FocalLengthMm, source.TakenAt));
    }

    [Fact]
    public void A_file_without_EXIF_has_no_camera_rather_than_an_empty_one()
    {
        using Photograph photograph = PhotographReader.Read(MadePictures.Encode(".png"), "a.png", MadePictures.AnySize).Value;
        Assert.Null(photograph.Source.CameraMake);
        Assert.Null(photograph.Source.FocalLengthMm);
        Assert.Null(photograph.Source.TakenAt);
    }

    [Fact]
    public void A_file_that_is_not_there_is_a_matter_of_the_disk()
    {
        string path = Path.Combine(Path.GetTempPath(), Guid.NewGuid().ToString("n"), "IMG_0001.jpg");
        PhotographUnreadableException e = Assert.Throws<PhotographUnreadableException>(() => PhotographReader.Read(path));
        Assert.Contains("IMG_0001.jpg", e.Message);
    }

    [Fact]
    public void A_missing_native_library_is_told_with_the_packages_to_install()
    {
        TypeInitializationException failure = new("OpenCvSharp.Internal.NativeMethods", new DllNotFoundException("libgtk-3.so.0: cannot open shared object file"));
        OpenCvMissingException? e = OpenCvMissingException.Explain(failure);
        Assert.NotNull(e);
        Assert.Contains("apt-get install -y --no-install-recommends libgtk-3-0 libatomic1 libdrm2", e.Message);
        Assert.Contains("libgtk-3.so.0", e.Message);
        Assert.Null(OpenCvMissingException.Explain(new InvalidOperationException()));
    }

    /// <summary>Mean absolute difference over pixels and channels, tone values.</summary>
    internal static double MeanDifference(Mat a, Mat b)
    {
        using Mat difference = new();
        Cv2.Absdiff(a, b, difference);
        using Mat flat = difference.Reshape(1);
        return Cv2.Mean(flat).Val0;
    }

    internal static Refusal Refused(byte[] bytes, string name, PhotographLimits? limits = null)
    {
        Outcome<Photograph> outcome = PhotographReader.Read(bytes, name, limits ?? MadePictures.AnySize);
        if (outcome.TryGet(out Photograph? photograph, out Refusal? refusal)) photograph.Dispose();
        return Assert.IsType<Refusal>(refusal);
    }
}
