using EdgeLens.Imaging.Photographs;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Photographs;

/// <summary>Read back by OpenCV's decoders, which share no code with the writer.</summary>
public sealed class SmallPictureTests
{
    [Fact]
    public void A_PNG_at_full_scale_holds_the_region_s_very_pixels()
    {
        using Mat picture = MadePictures.Noise(MatType.CV_8UC3);
        Rect region = new(9, 4, 33, 21);
        using Mat back = Cv2.ImDecode(SmallPicture.Png(picture, region, 1), ImreadModes.Color);
        using Mat part = picture.SubMat(region);
        Assert.Equal(0, PhotographReaderTests.MeanDifference(part, back));
    }

    [Fact]
    public void Half_the_scale_is_the_mean_of_four_pixels()
    {
        using Mat picture = MadePictures.Noise(MatType.CV_8UC3);
        using Mat back = Cv2.ImDecode(SmallPicture.Png(picture, new Rect(0, 0, 60, 44), 0.5), ImreadModes.Color);
        Assert.Equal(new Size(30, 22), back.Size());
        for (int y = 0; y < 22; y++)
        {
            for (int x = 0; x < 30; x++)
            {
                double sum = 0;
                for (int i = 0; i < 4; i++) sum += picture.Get<Vec3b>(2 * y + i / 2, 2 * x + i % 2).Item1;
                Assert.Equal(sum / 4, back.Get<Vec3b>(y, x).Item1, 0.51);
            }
        }
    }

    [Fact]
    public void A_JPEG_keeps_a_soft_picture_to_about_a_tone()
    {
        using Mat picture = new(120, 160, MatType.CV_8UC3);
        for (int y = 0; y < 120; y++)
        {
            Span<Vec3b> row = picture.RowSpan<Vec3b>(y);
            for (int x = 0; x < 160; x++) row[x] = new Vec3b((byte)(40 + x), (byte)(60 + y), (byte)(200 - x / 2));
        }

        using Mat back = Cv2.ImDecode(SmallPicture.Jpeg(picture, new Rect(0, 0, 160, 120), 1, 95), ImreadModes.Color);
        // A ramp has hardly any frequencies to be rounded away; what is left is the rounding of Y, Cb, Cr and of the lowest coefficients.
        Assert.InRange(PhotographReaderTests.MeanDifference(picture, back), 0, 1.5);
    }

    [Fact]
    public void The_same_pixels_give_the_same_bytes()
    {
        using Mat picture = MadePictures.Noise(MatType.CV_8UC3);
        Rect region = new(0, 0, 60, 44);
        Assert.Equal(SmallPicture.Jpeg(picture, region, 0.7), SmallPicture.Jpeg(picture, region, 0.7));
    }
}
