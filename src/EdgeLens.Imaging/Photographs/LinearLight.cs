using System.Collections.Immutable;
using OpenCvSharp;

namespace EdgeLens.Imaging.Photographs;

/// <summary>From the tone values of a picture to the light that made them: IEC 61966-2-1 (sRGB), 0 to 1.</summary>
/// <remarks>
/// A phone's own tone curve is not sRGB to the last percent; what matters here is that blur adds light, not tone, so that an edge
/// located in tone values lies off towards the dark side and one located in linear light does not.
/// </remarks>
public static class LinearLight
{
    private const double FullTone = 255;

    /// <summary>Linear light for each of the 256 tone values.</summary>
    public static ImmutableArray<float> OfTone { get; } = [.. Enumerable.Range(0, 256).Select(tone => (float)Decode(tone / FullTone))];

    /// <summary>Linear light of a tone.</summary>
    /// <param name="tone">Share of full tone, 0 to 1.</param>
    public static double Decode(double tone) => tone <= 0.04045 ? tone / 12.92 : Math.Pow((tone + 0.055) / 1.055, 2.4);

    /// <summary>Tone of a linear light, the inverse of <see cref="Decode"/>.</summary>
    /// <param name="light">Share of full light, 0 to 1.</param>
    public static double Encode(double light) => light <= 0.0031308 ? light * 12.92 : 1.055 * Math.Pow(light, 1 / 2.4) - 0.055;

    /// <summary>Linear light of a picture or of a region of one.</summary>
    /// <param name="grey">CV_8UC1, borrowed.</param>
    /// <returns>CV_32FC1 of the same size, owned by the caller.</returns>
    /// <exception cref="ArgumentException">Not an 8-bit picture of one channel.</exception>
    public static Mat Of(Mat grey)
    {
        ArgumentNullException.ThrowIfNull(grey);
        if (grey.Type() != MatType.CV_8UC1) throw new ArgumentException($"Expected CV_8UC1, got {grey.Type()}.", nameof(grey));
        using Mat table = Mat.FromArray(OfTone.AsSpan().ToArray());
        return grey.LUT(table);
    }

    /// <summary>Linear light of a region.</summary>
    /// <param name="grey">CV_8UC1, borrowed.</param>
    /// <param name="region">Inside the picture; pixel (0, 0) of the result is the region's top left pixel.</param>
    /// <returns>CV_32FC1, owned by the caller.</returns>
    public static Mat Of(Mat grey, Rect region)
    {
        ArgumentNullException.ThrowIfNull(grey);
        using Mat part = grey.SubMat(region);
        return Of(part);
    }
}
