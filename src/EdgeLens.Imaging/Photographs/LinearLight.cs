using System.Collections.Immutable;
using EdgeLens.Geometry.Plane;
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

    /// <summary>Linear light between pixels, interpolated linearly; beyond the rim that of the rim.</summary>
    /// <param name="grey">CV_8UC1, borrowed.</param>
    /// <param name="place">Pixels.</param>
    public static double At(Mat grey, PixelPoint place)
    {
        ArgumentNullException.ThrowIfNull(grey);
        int x = Math.Clamp((int)Math.Floor(place.X), 0, grey.Cols - 2), y = Math.Clamp((int)Math.Floor(place.Y), 0, grey.Rows - 2);
        double tx = Math.Clamp(place.X - x, 0, 1), ty = Math.Clamp(place.Y - y, 0, 1);
        ReadOnlySpan<byte> upper = grey.RowSpan<byte>(y), lower = grey.RowSpan<byte>(y + 1);
        ReadOnlySpan<float> linear = OfTone.AsSpan();
        return (1 - ty) * ((1 - tx) * linear[upper[x]] + tx * linear[upper[x + 1]]) + ty * ((1 - tx) * linear[lower[x]] + tx * linear[lower[x + 1]]);
    }
}
