using System.Security.Cryptography;
using EdgeLens.Records.Book;
using EdgeLens.Records.Files;

namespace EdgeLens.Store.Photographs;

/// <summary>Photographs by content: each file is named by the SHA-256 of its bytes, in a folder of the first two digits. Nothing is ever overwritten or deleted.</summary>
/// <param name="folder">Made when it is not there.</param>
internal sealed class PhotographFolder(string folder)
{
    /// <summary>Keeps a photograph; on the disk when the call returns.</summary>
    /// <returns>Its SHA-256, lower-case hex.</returns>
    public string Keep(ReadOnlySpan<byte> bytes)
    {
        string sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes));
        string path = Place(sha256);
        // A file of this name was renamed into place whole; only a length that differs tells of damage from outside, which a new copy mends.
        if (new FileInfo(path) is { Exists: true } there && there.Length == bytes.Length) return sha256;
        string shelf = Path.GetDirectoryName(path)!;
        if (!Directory.Exists(shelf))
        {
            Directory.CreateDirectory(shelf);
            WholeFile.SyncFolder(folder);
        }
        DurableFile.Write(path, bytes);
        return sha256;
    }

    /// <summary>True when a file of this name is there.</summary>
    public bool Has(string sha256) => File.Exists(Place(sha256));

    /// <summary>Path of a kept photograph.</summary>
    /// <exception cref="BookException">It is not there.</exception>
    public string PathOf(string sha256) => Has(sha256)
        ? Place(sha256)
        : throw new BookException($"The photograph {sha256} is not in {folder}. Restore it from a backup; `book verify` lists all that is missing.");

    /// <summary>True when the file is there and its bytes are those of its name.</summary>
    public bool IsWhole(string sha256)
    {
        if (!Has(sha256)) return false;
        using FileStream stream = File.OpenRead(Place(sha256));
        return Convert.ToHexStringLower(SHA256.HashData(stream)) == sha256;
    }

    /// <summary>Names of all files in the folder that are photographs, in order; parts that a crash left are not.</summary>
    public IEnumerable<string> All() => Directory.Exists(folder)
        ? Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Select(p => Path.GetFileName(p)!).Where(IsSha256).Order(StringComparer.Ordinal)
        : [];

    /// <summary>True for 64 lower-case hex digits: what comes from a file must not become a path elsewhere.</summary>
    public static bool IsSha256(string name) => name.Length == 64 && name.All(c => char.IsAsciiHexDigitLower(c));

    private string Place(string sha256) => IsSha256(sha256)
        ? Path.Combine(folder, sha256[..2], sha256)
        : throw new BookException($"\"{sha256}\" is no SHA-256 of a photograph.");
}
