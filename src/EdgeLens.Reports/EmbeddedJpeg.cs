namespace EdgeLens.Reports;

/// <summary>Pictures that stand inside a page.</summary>
internal static class EmbeddedJpeg
{
    /// <summary>The bytes, if they are a picture that a page can show.</summary>
    /// <exception cref="ArgumentException">The bytes are no JPEG file, or a size is not above 0.</exception>
    public static ReadOnlyMemory<byte> Checked(ReadOnlyMemory<byte> jpeg, int widthPx, int heightPx)
    {
        // A file of another kind would be shown as a broken picture: every JPEG file starts with FF D8 FF (ISO/IEC 10918-1, B.1.1.3).
        if (!jpeg.Span.StartsWith<byte>([0xFF, 0xD8, 0xFF])) throw new ArgumentException("These bytes are not a JPEG file.", nameof(jpeg));
        if (widthPx <= 0 || heightPx <= 0) throw new ArgumentException($"A picture of {widthPx} x {heightPx} pixels shows nothing.", nameof(widthPx));
        return jpeg;
    }

    /// <summary>The picture as an address: the page asks for no other file.</summary>
    public static string Href(ReadOnlyMemory<byte> jpeg) => "data:image/jpeg;base64," + Convert.ToBase64String(jpeg.Span);
}
