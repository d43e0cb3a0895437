using EdgeLens.Imaging.Photographs;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Photographs;

/// <summary>IEC 61966-2-1:1999, 5.2: V ≤ 0.04045: V / 12.92, else ((V + 0.055) / 1.055)^2.4.</summary>
public sealed class LinearLightTests
{
    [Theory]
    [InlineData(0, 0.0)]
    [InlineData(1, 0.000303527)] // 1/255/12.92
    [InlineData(10, 0.003035270)] // last tone on the straight part, 10/255/12.92
    [InlineData(11, 0.003346536)] // first tone on the power part
    [InlineData(128, 0.215860500)]
    [InlineData(188, 0.502886458)] // the tone next to half the light
    [InlineData(255, 1.0)]
    public void A_tone_is_decoded_as_the_standard_says(int tone, double light) => Assert.Equal(light, LinearLight.OfTone[tone], 1e-7);

    [Fact]
    public void Encoding_undoes_decoding_for_every_tone()
    {
        for (int tone = 0; tone <= 255; tone++) Assert.Equal(tone, 255 * LinearLight.Encode(LinearLight.Decode(tone / 255.0)), 1e-3);
    }

    [Fact]
    public void More_tone_is_always_more_light() => Assert.All(Enumerable.Range(1, 255), tone => Assert.True(LinearLight.OfTone[tone] > LinearLight.OfTone[tone - 1]));

    [Fact]
    public void A_region_of_a_picture_becomes_its_light()
    {
        using Mat grey = MadePictures.Noise(MatType.CV_8UC1);
        Rect region = new(7, 5, 31, 20);
        using Mat light = LinearLight.Of(grey, region);
        Assert.Equal((MatType.CV_32FC1, new Size(31, 20)), (light.Type(), light.Size()));
        for (int y = 0; y < region.Height; y++)
        {
            ReadOnlySpan<byte> tones = grey.RowSpan<byte>(y + region.Y)[region.X..];
            ReadOnlySpan<float> lights = light.RowSpan<float>(y);
            for (int x = 0; x < region.Width; x++) Assert.Equal(LinearLight.OfTone[tones[x]], lights[x]);
        }
    }

    [Fact]
    public void A_colour_picture_is_not_taken_for_grey()
    {
        using Mat colour = MadePictures.Noise(MatType.CV_8UC3);
        Assert.Throws<ArgumentException>(() => LinearLight.Of(colour));
    }
}
