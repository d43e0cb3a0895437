using EdgeLens.Geometry.Figures;

namespace EdgeLens.Imaging.Photographs;

/// <summary>The refusals of files that are no usable photograph, each with what to do.</summary>
internal static class FileRefusals
{
    private const string SaveAgain = "Copy the photograph again from the phone or camera; if it still fails, take it again.";

    internal static Refusal Empty() => new("file-empty", "The file holds no bytes.", SaveAgain);

    internal static Refusal TooLarge(long bytes, long limit) => new(
        "file-too-large", "The file is larger than a photograph of this kind can be.", "Save the photograph as an ordinary JPEG.", bytes / 1e6, limit / 1e6, "MB");

    internal static Refusal NotAPicture(string what) => new(
        "file-not-a-picture", $"The file is {what}, not a JPEG, PNG, TIFF or WebP picture.",
        "Save or export the photograph as JPEG (on a phone that takes HEIC: camera settings, format \"most compatible\").");

    internal static Refusal Misnamed(string fileName, PictureFormat format) => new(
        "file-misnamed", $"{fileName} is a {format.Name} picture by its content, but its name says otherwise.",
        $"Check that it is the right file, and rename it to {Path.GetFileNameWithoutExtension(fileName)}{format.Extensions[0]}.");

    internal static Refusal Truncated(PictureFormat format, string what) => new("file-truncated", $"The {format.Name} file is incomplete: {what}.", SaveAgain);

    internal static Refusal Damaged(PictureFormat format, string what) => new("file-damaged", $"The {format.Name} file is damaged: {what}.", SaveAgain);

    internal static Refusal ManyFrames(PictureFormat format, string what) => new(
        "file-not-a-picture", $"The {format.Name} file is not one photograph: {what}.", "Save the one photograph as an ordinary JPEG.");

    internal static Refusal PictureTooLarge(int widthPx, int heightPx, long maxPixels) => new(
        "picture-too-large", $"The picture has {widthPx} x {heightPx} pixels.", "Set the camera to a smaller picture size; 12 megapixels are plenty.",
        (double)widthPx * heightPx / 1e6, maxPixels / 1e6, "megapixels");

    internal static Refusal PictureTooSmall(int widthPx, int heightPx, int minShortSidePx) => new(
        "picture-too-small", $"The picture has only {widthPx} x {heightPx} pixels: too coarse to see a cutting edge.",
        "Send the original photograph from the camera, not a preview or a copy made smaller by a messenger.", Math.Min(widthPx, heightPx), minShortSidePx, "pixels on the shorter side");
}
