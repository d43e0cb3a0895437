using System.Buffers.Binary;

namespace EdgeLens.Imaging.Photographs;

/// <summary>One directory of a TIFF file (TIFF 6.0, section 2): its entries, not yet their values.</summary>
/// <param name="Next">Where the next directory stands; 0 for none.</param>
internal sealed record TiffDirectory(uint Next)
{
    private const ushort Byte = 1, Short = 3, Long = 4;

    private readonly Dictionary<ushort, Entry> _entries = [];

    /// <summary>Bytes of one value, by type 1 to 13; types beyond are unknown.</summary>
    private static ReadOnlySpan<byte> SizeOfType => [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4];

    /// <summary>
    /// The directory at a place of the file; null when the file ends within it or within its values, or when an entry stands twice (readers differ on which counts).
    /// </summary>
    internal static TiffDirectory? Read(TiffReader reader, uint at)
    {
        if (reader.UInt16(at) is not { } count || reader.UInt32(at + 2L + 12L * count) is not { } next) return null;
        TiffDirectory directory = new(next);
        for (int i = 0; i < count; i++)
        {
            long entry = at + 2L + 12L * i;
            ushort tag = reader.UInt16(entry)!.Value, type = reader.UInt16(entry + 2)!.Value;
            uint values = reader.UInt32(entry + 4)!.Value;
            uint number = type == Short ? reader.UInt16(entry + 8)!.Value : type == Byte ? reader.Byte(entry + 8) : reader.UInt32(entry + 8)!.Value;
            long size = type < SizeOfType.Length ? values * (long)SizeOfType[type] : 0;
            if (size > 4 && reader.UInt32(entry + 8)!.Value + size > reader.Length) return null;
            if (!directory._entries.TryAdd(tag, new(type, values, (int)entry + 8, number))) return null;
        }

        return directory;
    }

    internal bool Has(ushort tag) => _entries.ContainsKey(tag);

    /// <summary>True when the tag is one 16-bit number in its own entry.</summary>
    internal bool IsOneShort(ushort tag) => _entries.TryGetValue(tag, out Entry e) && e is { Type: Short, Count: 1 };

    /// <summary>Where the value of an entry stands in the file.</summary>
    internal int ValuePosition(ushort tag) => _entries[tag].Position;

    /// <summary>The value of a tag that holds one whole number; null when it is missing or something else.</summary>
    internal uint? Number(ushort tag) => _entries.TryGetValue(tag, out Entry e) && e is { Type: Byte or Short or Long, Count: 1 } ? e.Inline : null;

    /// <summary>All whole numbers of a tag; null when it is missing, something else, or reaches beyond the file.</summary>
    internal uint[]? Numbers(ushort tag, TiffReader reader)
    {
        if (!_entries.TryGetValue(tag, out Entry e) || e.Type is not (Short or Long) || e.Count == 0) return null;
        int size = e.Type == Short ? 2 : 4;
        long from = e.Count * (long)size <= 4 ? e.Position : reader.UInt32(e.Position)!.Value;
        if (from + e.Count * (long)size > reader.Length) return null;
        uint[] numbers = new uint[e.Count];
        for (int i = 0; i < numbers.Length; i++) numbers[i] = size == 2 ? reader.UInt16(from + 2L * i)!.Value : reader.UInt32(from + 4L * i)!.Value;
        return numbers;
    }

    private readonly record struct Entry(ushort Type, uint Count, int Position, uint Inline);
}

/// <summary>Numbers of a TIFF file in its own byte order; null beyond its end.</summary>
internal readonly ref struct TiffReader(ReadOnlySpan<byte> file)
{
    private readonly ReadOnlySpan<byte> _file = file;

    internal bool BigEndian { get; } = file[0] == 'M';

    internal long Length => _file.Length;

    internal byte Byte(long at) => _file[(int)at];

    internal ushort? UInt16(long at) => at < 0 || at + 2 > _file.Length ? null
        : BigEndian ? BinaryPrimitives.ReadUInt16BigEndian(_file[(int)at..]) : BinaryPrimitives.ReadUInt16LittleEndian(_file[(int)at..]);

    internal uint? UInt32(long at) => at < 0 || at + 4 > _file.Length ? null
        : BigEndian ? BinaryPrimitives.ReadUInt32BigEndian(_file[(int)at..]) : BinaryPrimitives.ReadUInt32LittleEndian(_file[(int)at..]);
}
