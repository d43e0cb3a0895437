using EdgeLens.Records.Files;

namespace EdgeLens.Store.Photographs;

/// <summary>Files of the book: on the disk when the call returns, under their name and whole, whatever happens to the machine.</summary>
internal static class DurableFile
{
    /// <summary>Writes beside, syncs, renames, syncs the folder: a crash leaves the old state or the new one, and at worst a stray part.</summary>
    public static void Write(string path, ReadOnlySpan<byte> bytes)
    {
        WholeFile.Write(path, bytes.ToArray());
        WholeFile.SyncFolder(Path.GetDirectoryName(Path.GetFullPath(path))!);
    }
}
