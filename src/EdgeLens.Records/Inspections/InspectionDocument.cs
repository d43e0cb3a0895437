using System.IO.Compression;
using System.Text;

namespace EdgeLens.Records.Inspections;

/// <summary>What is kept of an inspection besides its rows.</summary>
public sealed record InspectionDocument
{
    /// <summary>The inspection's row; set by the store.</summary>
    public long InspectionId { get; init; }

    /// <summary>The whole inspection as docs/inspection-json.md describes it: UTF-8, packed by gzip (RFC 1952). Empty where nothing was measured.</summary>
    public required byte[] JsonGzip { get; init; }

    /// <summary>The working end for people, JPEG; empty: none.</summary>
    public byte[] PictureJpeg { get; init; } = [];

    /// <summary>Of the picture; null without one, or where the scale is not known.</summary>
    public double? PictureMmPerPx { get; init; }

    /// <summary>The whole inspection, unpacked; null where nothing was measured.</summary>
    /// <exception cref="InvalidDataException">The bytes are damaged.</exception>
    public string? ReadJson()
    {
        if (JsonGzip.Length == 0) return null;
        using StreamReader reader = new(new GZipStream(new MemoryStream(JsonGzip), CompressionMode.Decompress), Encoding.UTF8);
        return reader.ReadToEnd();
    }

    /// <summary>Packs an inspection's JSON.</summary>
    public static byte[] Pack(string json)
    {
        using MemoryStream target = new();
        // An inspection is half a megabyte of digits: the fastest level takes some 10 ms and leaves a fifth, the best ten times as long for a little less.
        using (GZipStream packed = new(target, CompressionLevel.Fastest)) packed.Write(Encoding.UTF8.GetBytes(json));
        return target.ToArray();
    }
}
