using System.Security.Cryptography;
using EdgeLens.Geometry.Figures;
using OpenCvSharp;

namespace EdgeLens.Imaging.Photographs;

/// <summary>Reads a photograph from an untrusted file: what it is, whether it is whole, how large; only then its pixels.</summary>
/// <remarks>
/// Order of the checks: size of the file, kind by content, name against content, a walk through the whole structure, header and metadata by ImageSharp
/// (never its decoders), both sizes alike and within the limits, then OpenCV decodes. Nothing but a refusal comes back for a bad file.
/// </remarks>
public static class PhotographReader
{
    /// <summary>Reads a photograph from bytes.</summary>
    /// <param name="bytes">The whole file.</param>
    /// <param name="fileName">Its name, to be held against its content and for messages; folders are cut off.</param>
    /// <param name="limits">Null for <see cref="PhotographLimits.Default"/>.</param>
    /// <returns>
    /// The photograph, upright, owned by the caller; or <c>file-empty</c>, <c>file-too-large</c>, <c>file-not-a-picture</c>, <c>file-misnamed</c>,
    /// <c>file-truncated</c>, <c>file-damaged</c>, <c>picture-too-large</c>, <c>picture-too-small</c>.
    /// </returns>
    /// <exception cref="OpenCvMissingException">OpenCV's native library is missing.</exception>
    public static Outcome<Photograph> Read(ReadOnlyMemory<byte> bytes, string fileName, PhotographLimits? limits = null)
    {
        limits ??= PhotographLimits.Default;
        fileName = Path.GetFileName(fileName);
        if (bytes.IsEmpty) return FileRefusals.Empty();
        if (bytes.Length > limits.MaxFileBytes) return FileRefusals.TooLarge(bytes.Length, limits.MaxFileBytes);
        if (PictureFormat.Of(bytes.Span) is not { } format) return FileRefusals.NotAPicture(ForeignFile.Describe(bytes.Span));
        string extension = Path.GetExtension(fileName).ToLowerInvariant();
        // A name without an extension claims nothing.
        if (extension.Length > 0 && !format.Extensions.Contains(extension)) return FileRefusals.Misnamed(fileName, format);

        if (!Walk(format, bytes).TryGet(out FileLayout? layout, out Refusal? refusal)) return refusal;
        if (!PictureHeader.Read(format, layout).TryGet(out PictureHeader? header, out refusal)) return refusal;
        // Two readers that know nothing of each other must agree, or the size that is checked need not be the size that is decoded.
        if ((header.WidthPx, header.HeightPx) != (layout.WidthPx, layout.HeightPx)) return FileRefusals.Damaged(format, "it gives two different sizes");
        if ((long)header.WidthPx * header.HeightPx > limits.MaxPixels) return FileRefusals.PictureTooLarge(header.WidthPx, header.HeightPx, limits.MaxPixels);
        if (Math.Min(header.WidthPx, header.HeightPx) < limits.MinShortSidePx)
            return FileRefusals.PictureTooSmall(header.WidthPx, header.HeightPx, limits.MinShortSidePx);

        OpenCvRuntime.Require();
        if (DecodeWhole(layout) is not { } bgr) return FileRefusals.Damaged(format, "its picture data cannot be decoded");
        if (format != PictureFormat.Jpeg || !JpegLayout.EndsInFiller(bgr)) return Own(bgr, header, format, fileName, Convert.ToHexStringLower(SHA256.HashData(bytes.Span)));
        bgr.Dispose();
        return FileRefusals.Truncated(format, "its lower part is missing");
    }

    /// <summary>Reads a photograph from disk.</summary>
    /// <param name="path">Of the file.</param>
    /// <param name="limits">Null for <see cref="PhotographLimits.Default"/>; a file that is too large is not even read.</param>
    /// <exception cref="PhotographUnreadableException">The file is not there or cannot be read.</exception>
    /// <exception cref="OpenCvMissingException">OpenCV's native library is missing.</exception>
    public static Outcome<Photograph> Read(string path, PhotographLimits? limits = null)
    {
        limits ??= PhotographLimits.Default;
        try
        {
            FileInfo file = new(path);
            if (file.Exists && file.Length > limits.MaxFileBytes) return FileRefusals.TooLarge(file.Length, limits.MaxFileBytes);
            return Read(File.ReadAllBytes(path), path, limits);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new PhotographUnreadableException(path, e);
        }
    }

    private static Outcome<FileLayout> Walk(PictureFormat format, ReadOnlyMemory<byte> bytes) =>
        format == PictureFormat.Jpeg ? JpegLayout.Walk(bytes)
        : format == PictureFormat.Png ? PngLayout.Walk(bytes)
        : format == PictureFormat.Tiff ? TiffLayout.Walk(bytes)
        : WebpLayout.Walk(bytes);

    /// <summary>Null when the decoder gives up, or gives something else than the header promised.</summary>
    private static Mat? DecodeWhole(FileLayout layout)
    {
        try
        {
            Mat bgr = Decode(layout.ForDecoding.Span);
            if (bgr.Type() == MatType.CV_8UC3 && bgr.Cols == layout.WidthPx && bgr.Rows == layout.HeightPx) return bgr;
            bgr.Dispose();
            return null;
        }
        catch (OpenCVException)
        {
            return null;
        }
    }

    /// <summary>8-bit colour, not yet turned: 16 bits are cut to 8, grey is tripled, transparency is dropped.</summary>
    private static Mat Decode(ReadOnlySpan<byte> file) => Cv2.ImDecode(file, ImreadModes.Color | ImreadModes.IgnoreOrientation);

    private static Photograph Own(Mat bgr, PictureHeader header, PictureFormat format, string fileName, string sha256)
    {
        ExifOrientation.TurnUpright(bgr, header.Orientation);
        Mat grey = bgr.CvtColor(ColorConversionCodes.BGR2GRAY);
        PhotographSource source = new(
            fileName, sha256, format, bgr.Cols, bgr.Rows, header.Orientation, header.CameraMake, header.CameraModel, header.FocalLengthMm, header.TakenAt);
        return new Photograph(source, bgr, grey);
    }
}

/// <summary>A photograph's file is not there or cannot be read: a matter of the disk, not of the picture.</summary>
public sealed class PhotographUnreadableException : IOException
{
    internal PhotographUnreadableException(string path, Exception inner)
        : base($"{path}: the file cannot be read ({inner.Message}). Check the path, and that the file may be read.", inner)
    {
    }
}
