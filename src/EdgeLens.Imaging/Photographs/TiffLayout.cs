using System.Buffers.Binary;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Imaging.Photographs;

/// <summary>Walks the directories of a TIFF file (TIFF 6.0) and checks that every strip or tile of the photograph lies inside the file.</summary>
/// <remarks>
/// The decoder turns TIFF pictures by their orientation tag even when told not to, so it is given a copy whose tag says "upright";
/// the picture is turned once, by us, as for the other formats.
/// </remarks>
internal static class TiffLayout
{
    /// <summary>A photograph has one directory, and a preview or two; a longer chain is a document or an attack.</summary>
    private const int MaxDirectories = 16;

    /// <summary>How far a tile may reach beyond the picture.</summary>
    private const long LargestOverhangPx = 1024;

    private const ushort NewSubfileType = 254, ImageWidth = 256, ImageLength = 257, BitsPerSample = 258, Compression = 259, StripOffsets = 273,
        OrientationTag = 274, SamplesPerPixel = 277, RowsPerStrip = 278, StripByteCounts = 279, PlanarConfiguration = 284,
        TileWidth = 322, TileLength = 323, TileOffsets = 324, TileByteCounts = 325;

    private const uint Uncompressed = 1, SeparatePlanes = 2;

    internal static Outcome<FileLayout> Walk(ReadOnlyMemory<byte> file)
    {
        TiffReader reader = new(file.Span);
        TiffDirectory? photograph = null;
        if (reader.UInt32(4) is not { } next) return Truncated("it ends inside its header");
        HashSet<uint> seen = [];
        while (next != 0)
        {
            if (!seen.Add(next) || seen.Count > MaxDirectories) return FileRefusals.ManyFrames(PictureFormat.Tiff, "it has too many pages");
            if (TiffDirectory.Read(reader, next) is not { } directory) return Truncated("it ends inside a directory");
            bool isPreview = (directory.Number(NewSubfileType) ?? 0) != 0;
            if (photograph is null && isPreview) return FileRefusals.ManyFrames(PictureFormat.Tiff, "it begins with a preview, as raw camera files do");
            if (photograph is not null && !isPreview) return FileRefusals.ManyFrames(PictureFormat.Tiff, "it has several pages");
            photograph ??= directory;
            next = directory.Next;
        }

        if (photograph is null) return Damaged("it has no directory");
        if (Check(photograph, reader) is { } refusal) return refusal;
        return new FileLayout((int)photograph.Number(ImageWidth)!, (int)photograph.Number(ImageLength)!, file, Upright(file, photograph, reader));
    }

    private static Refusal? Check(TiffDirectory d, TiffReader reader)
    {
        if (d.Number(ImageWidth) is not (> 0 and <= int.MaxValue and var width) || d.Number(ImageLength) is not (> 0 and <= int.MaxValue and var height))
            return Damaged("its header gives no size");
        uint samples = d.Number(SamplesPerPixel) ?? 1;
        if ((d.Has(BitsPerSample) ? d.Numbers(BitsPerSample, reader) : [1]) is not { } bits) return Truncated("the list of its bits per colour is missing");
        if (samples is 0 or > 8 || bits.Any(b => b is not (8 or 16) || b != bits[0])) return Damaged("only 8 or 16 bits per colour are read");

        if (d.Has(OrientationTag) && !d.IsOneShort(OrientationTag)) return Damaged("its orientation is no number");

        bool tiled = d.Has(TileOffsets);
        uint pieceWidth = tiled ? d.Number(TileWidth) ?? 0 : width, pieceHeight = tiled ? d.Number(TileLength) ?? 0 : Math.Min(d.Number(RowsPerStrip) ?? height, height);
        // The decoder takes memory for one piece at once, so a tile much larger than the picture is refused; common tiles have 128 to 1024 pixels a side.
        if (pieceWidth == 0 || pieceHeight == 0 || (tiled && (pieceWidth > width + LargestOverhangPx || pieceHeight > height + LargestOverhangPx)))
            return Damaged("its strips or tiles have no sensible size");
        if (d.Numbers(tiled ? TileOffsets : StripOffsets, reader) is not { } offsets || d.Numbers(tiled ? TileByteCounts : StripByteCounts, reader) is not { } counts)
            return Truncated("the list of its strips is missing");

        long planes = d.Number(PlanarConfiguration) == SeparatePlanes ? samples : 1;
        long across = (width + pieceWidth - 1L) / pieceWidth, down = (height + pieceHeight - 1L) / pieceHeight;
        if (offsets.Length != counts.Length || offsets.Length != across * down * planes) return Damaged("the number of its strips does not fit its size");

        bool uncompressed = (d.Number(Compression) ?? Uncompressed) == Uncompressed;
        long bytesPerRow = pieceWidth * (planes == 1 ? samples : 1) * (bits[0] / 8L);
        for (int i = 0; i < offsets.Length; i++)
        {
            if (offsets[i] + (long)counts[i] > reader.Length) return Truncated("a strip of the picture lies outside the file");
            long row = i / across % down;
            long rows = tiled ? pieceHeight : Math.Min(pieceHeight, height - row * pieceHeight);
            if (counts[i] == 0 || (uncompressed && counts[i] < rows * bytesPerRow)) return Truncated("a strip of the picture is too short");
        }

        return null;
    }

    private static ReadOnlyMemory<byte> Upright(ReadOnlyMemory<byte> file, TiffDirectory d, TiffReader reader)
    {
        if (d.Number(OrientationTag) is null or 1) return file;
        byte[] copy = file.ToArray();
        Span<byte> value = copy.AsSpan(d.ValuePosition(OrientationTag), 2);
        if (reader.BigEndian) BinaryPrimitives.WriteUInt16BigEndian(value, 1);
        else BinaryPrimitives.WriteUInt16LittleEndian(value, 1);
        return copy;
    }

    private static Refusal Truncated(string what) => FileRefusals.Truncated(PictureFormat.Tiff, what);

    private static Refusal Damaged(string what) => FileRefusals.Damaged(PictureFormat.Tiff, what);
}
