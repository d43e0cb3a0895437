namespace EdgeLens.Imaging.Photographs;

/// <summary>What is known of a photograph besides its pixels. A member is null when the file does not tell it.</summary>
/// <param name="FileName">Without folder.</param>
/// <param name="Sha256">Of the file's bytes, lower-case hex.</param>
/// <param name="Format">By content.</param>
/// <param name="WidthPx">After turning upright.</param>
/// <param name="HeightPx">After turning upright.</param>
/// <param name="Orientation">EXIF value 1 to 8 that was undone: a lens profile is tied to the sensor, which lay so.</param>
/// <param name="CameraMake">As the camera writes it.</param>
/// <param name="CameraModel">As the camera writes it.</param>
/// <param name="FocalLengthMm">The lens's own focal length (EXIF FocalLength).</param>
/// <param name="TakenAt">By the camera's clock; EXIF DateTimeOriginal knows no time zone.</param>
public sealed record PhotographSource(
    string FileName, string Sha256, PictureFormat Format, int WidthPx, int HeightPx, int Orientation,
    string? CameraMake, string? CameraModel, double? FocalLengthMm, DateTime? TakenAt);
