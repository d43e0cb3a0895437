using System.Globalization;
using EdgeLens.Geometry.Figures;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Formats.Jpeg;
using SixLabors.ImageSharp.Formats.Png;
using SixLabors.ImageSharp.Formats.Tiff;
using SixLabors.ImageSharp.Formats.Webp;
using SixLabors.ImageSharp.Metadata.Profiles.Exif;

namespace EdgeLens.Imaging.Photographs;

/// <summary>Size and metadata of a picture file, read by ImageSharp without decoding a pixel.</summary>
/// <param name="WidthPx">Before turning.</param>
/// <param name="HeightPx">Before turning.</param>
/// <param name="Orientation">1 to 8.</param>
/// <param name="CameraMake">Null when not told.</param>
/// <param name="CameraModel">Null when not told.</param>
/// <param name="FocalLengthMm">Null when not told.</param>
/// <param name="TakenAt">Null when not told.</param>
internal sealed record PictureHeader(
    int WidthPx, int HeightPx, int Orientation, string? CameraMake, string? CameraModel, double? FocalLengthMm, DateTime? TakenAt)
{
    /// <summary>Only the four formats: the reader's other parsers are never reached by an untrusted file.</summary>
    private static readonly Configuration OnlyOurFormats = new(
        new JpegConfigurationModule(), new PngConfigurationModule(), new TiffConfigurationModule(), new WebpConfigurationModule());

    internal static Outcome<PictureHeader> Read(PictureFormat format, FileLayout layout)
    {
        byte[] bytes = layout.ForIdentification.ToArray();
        try
        {
            if (Image.Identify(OnlyOurFormats, bytes, out _) is not { } info) return FileRefusals.Damaged(format, "its header cannot be read");
            // The TIFF reader keeps its tags to itself; but an EXIF block is a TIFF file, so the file is its own EXIF block.
            ExifProfile? exif = format == PictureFormat.Tiff ? new ExifProfile(bytes) : info.Metadata.ExifProfile;
            return new PictureHeader(
                info.Width, info.Height, ExifOrientation.Of(exif?.GetValue(ExifTag.Orientation)?.Value),
                Text(exif?.GetValue(ExifTag.Make)?.Value), Text(exif?.GetValue(ExifTag.Model)?.Value),
                exif?.GetValue(ExifTag.FocalLength)?.Value.ToDouble() is > 0 and < 10_000 and var mm ? mm : null,
                Time(exif?.GetValue(ExifTag.DateTimeOriginal)?.Value ?? exif?.GetValue(ExifTag.DateTime)?.Value));
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // The one place where everything is caught: this line of the library answers crafted headers with many kinds of exception
            // (a TIFF without directories: "Sequence contains no elements"), and none of them is a fault of ours or of the disk.
            return FileRefusals.Damaged(format, "its header cannot be read");
        }
    }

    private static string? Text(string? text) => text?.Trim('\0', ' ') is { Length: > 0 } t ? t : null;

    private static DateTime? Time(string? text) =>
        DateTime.TryParseExact(Text(text), "yyyy:MM:dd HH:mm:ss", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime time) ? time : null;
}
