using System.Runtime.InteropServices;

namespace EdgeLens.Store.Photographs;

/// <summary>Files that are on the disk when the call returns, under their name and whole, whatever happens to the machine.</summary>
internal static class DurableFile
{
    /// <summary>Ending of a file that is not whole yet.</summary>
    public const string PartSuffix = ".part";

    private static int _counter;

    /// <summary>Writes beside, syncs, renames, syncs the folder: a crash leaves the old state or the new one, and at worst a stray part.</summary>
    public static void Write(string path, ReadOnlySpan<byte> bytes)
    {
        string part = FormattableString.Invariant($"{path}.{Environment.ProcessId}.{Interlocked.Increment(ref _counter)}{PartSuffix}");
        using (FileStream stream = new(part, FileMode.CreateNew, FileAccess.Write, FileShare.None))
        {
            stream.Write(bytes);
            stream.Flush(flushToDisk: true);
        }
        File.Move(part, path, overwrite: true);
        SyncFolder(Path.GetDirectoryName(path)!);
    }

    /// <summary>A new name is on the disk only when its folder is (POSIX fsync; .NET opens no folder). Windows keeps names in its journal.</summary>
    public static void SyncFolder(string folder)
    {
        if (OperatingSystem.IsWindows()) return;
        int descriptor = open(folder, 0);
        if (descriptor < 0) throw new IOException($"{folder} cannot be opened: {Marshal.GetPInvokeErrorMessage(Marshal.GetLastPInvokeError())}");
        try
        {
            // Some file systems cannot sync a folder and say EINVAL: there is nothing more to be done on them.
            _ = fsync(descriptor);
        }
        finally
        {
            _ = close(descriptor);
        }
    }

#pragma warning disable SYSLIB1054, IDE1006, CA2101 // Three calls of the C library, named as there; generating their marshalling would need unsafe code.
    [DllImport("libc", SetLastError = true)]
    private static extern int open([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);

    [DllImport("libc", SetLastError = true)]
    private static extern int fsync(int descriptor);

    [DllImport("libc", SetLastError = true)]
    private static extern int close(int descriptor);
#pragma warning restore SYSLIB1054, IDE1006, CA2101
}
