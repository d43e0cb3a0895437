using System.Runtime.InteropServices;
using OpenCvSharp;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Formats;
using SixLabors.ImageSharp.Formats.Jpeg;
using SixLabors.ImageSharp.Formats.Png;
using SixLabors.ImageSharp.PixelFormats;
using Rect = OpenCvSharp.Rect;

namespace EdgeLens.Imaging.Photographs;

/// <summary>Small pictures for reports, made from pixels that we already have; without any metadata of the photograph.</summary>
public static class SmallPicture
{
    /// <summary>A JPEG file of a region of a picture.</summary>
    /// <param name="bgr">CV_8UC3, borrowed.</param>
    /// <param name="region">Inside the picture.</param>
    /// <param name="scale">Pixels of the result per pixel of the region, above 0; below 1 each result pixel is the mean of what it covers.</param>
    /// <param name="qualityPercent">1 to 100.</param>
    public static byte[] Jpeg(Mat bgr, Rect region, double scale, int qualityPercent = 88) =>
        Write(bgr, region, scale, new JpegEncoder { Quality = qualityPercent, ColorType = JpegColorType.YCbCrRatio444 });

    /// <summary>A PNG file of a region of a picture.</summary>
    /// <param name="bgr">CV_8UC3, borrowed.</param>
    /// <param name="region">Inside the picture.</param>
    /// <param name="scale">As for <see cref="Jpeg"/>.</param>
    public static byte[] Png(Mat bgr, Rect region, double scale) =>
        Write(bgr, region, scale, new PngEncoder { ColorType = PngColorType.Rgb, BitDepth = PngBitDepth.Bit8, IgnoreMetadata = true });

    private static byte[] Write(Mat bgr, Rect region, double scale, IImageEncoder encoder)
    {
        ArgumentNullException.ThrowIfNull(bgr);
        if (bgr.Type() != MatType.CV_8UC3) throw new ArgumentException($"Expected CV_8UC3, got {bgr.Type()}.", nameof(bgr));
        if (!(scale > 0) || !double.IsFinite(scale)) throw new ArgumentOutOfRangeException(nameof(scale), scale, "The scale must be above 0.");
        using Mat part = bgr.SubMat(region);
        using Mat sized = new();
        OpenCvSharp.Size size = new(Math.Max(1, (int)Math.Round(region.Width * scale)), Math.Max(1, (int)Math.Round(region.Height * scale)));
        Cv2.Resize(part, sized, size, 0, 0, scale < 1 ? InterpolationFlags.Area : InterpolationFlags.Cubic);
        using Image<Bgr24> picture = new(size.Width, size.Height);
        picture.ProcessPixelRows(rows =>
        {
            for (int y = 0; y < rows.Height; y++) MemoryMarshal.Cast<Vec3b, Bgr24>(sized.RowSpan<Vec3b>(y)).CopyTo(rows.GetRowSpan(y));
        });

        using MemoryStream file = new();
        picture.Save(file, encoder);
        return file.ToArray();
    }
}
