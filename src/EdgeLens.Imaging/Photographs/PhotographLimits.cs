namespace EdgeLens.Imaging.Photographs;

/// <summary>How large and how small a photograph may be. All limits are checked before a pixel is decoded.</summary>
public sealed record PhotographLimits
{
    /// <summary>The limits that the program uses.</summary>
    public static PhotographLimits Default { get; } = new();

    /// <summary>Bytes of the file. 50 megapixels of uncompressed 8-bit colour are 151 MB; more can only be padding or a format that holds more than one photograph.</summary>
    public long MaxFileBytes { get; init; } = 160_000_000;

    /// <summary>
    /// Width times height. Sensors sold as "50 megapixels" deliver up to 8192 x 6144 = 50.33 million pixels. Decoded colour and grey take 4 bytes a pixel,
    /// so this bounds the memory of one photograph to about 202 MB (and 202 MB more if its whole linear light were asked for).
    /// </summary>
    public long MaxPixels { get; init; } = 50_500_000;

    /// <summary>
    /// Pixels of the shorter side. If the card's 10 mm high window filled a picture of 480 pixels, one pixel would be 21 µm:
    /// as coarse as the smallest nick (20 µm), so nothing on an edge could be measured.
    /// </summary>
    public int MinShortSidePx { get; init; } = 480;
}
