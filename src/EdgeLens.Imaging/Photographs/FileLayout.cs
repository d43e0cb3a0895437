namespace EdgeLens.Imaging.Photographs;

/// <summary>What a walk through a complete file's structure found, without decoding a pixel.</summary>
/// <param name="WidthPx">As the file says, before turning; at least 1.</param>
/// <param name="HeightPx">As the file says, before turning; at least 1.</param>
/// <param name="ForIdentification">The part that may be shown to the metadata reader: nothing in it unpacks to more than it is.</param>
/// <param name="ForDecoding">The part that the decoder needs.</param>
internal sealed record FileLayout(int WidthPx, int HeightPx, ReadOnlyMemory<byte> ForIdentification, ReadOnlyMemory<byte> ForDecoding);
