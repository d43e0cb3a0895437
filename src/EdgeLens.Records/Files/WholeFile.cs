using System.Runtime.InteropServices;
using System.Security.Cryptography;

namespace EdgeLens.Records.Files;

/// <summary>Files that are there whole or not at all, whatever happens to the machine: into a neighbour first, which then takes the name.</summary>
public static class WholeFile
{
    /// <summary>Ending of a file that is not whole yet.</summary>
    public const string PartSuffix = ".part";

    /// <summary>Writes a file; an older one of the name stays as it was until the new one is on the disk.</summary>
    /// <param name="path">In a folder that is there.</param>
    /// <param name="write">Writes the content. When it throws, nothing is left behind.</param>
    /// <param name="ownerOnly">True: other users of the machine may not read it.</param>
    /// <exception cref="IOException">It cannot be written; nothing is left behind.</exception>
    /// <exception cref="UnauthorizedAccessException">The same.</exception>
    public static void Write(string path, Action<Stream> write, bool ownerOnly = false)
    {
        ArgumentNullException.ThrowIfNull(write);
        string whole = Path.GetFullPath(path);
        // On the same disk, or taking the name would be a copy; under a name of its own, so that two writers don't write into one.
        string part = $"{whole}.{RandomNumberGenerator.GetHexString(16, lowercase: true)}{PartSuffix}";
        try
        {
            using (FileStream stream = new(part, Options(ownerOnly)))
            {
                write(stream);
                stream.Flush(flushToDisk: true);
            }
            File.Move(part, whole, overwrite: true);
        }
        catch
        {
            Forget(part);
            throw;
        }
    }

    /// <summary>Writes bytes.</summary>
    /// <inheritdoc cref="Write(string, Action{Stream}, bool)" />
    public static void Write(string path, ReadOnlyMemory<byte> bytes, bool ownerOnly = false) => Write(path, stream => stream.Write(bytes.Span), ownerOnly);

    /// <summary>Puts the names of a folder's files on the disk too (POSIX fsync; .NET opens no folder). Windows keeps names in its journal.</summary>
    /// <exception cref="IOException">The folder cannot be opened.</exception>
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

    private static FileStreamOptions Options(bool ownerOnly)
    {
        FileStreamOptions options = new() { Mode = FileMode.CreateNew, Access = FileAccess.Write, Share = FileShare.None };
        if (ownerOnly && !OperatingSystem.IsWindows()) options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        return options;
    }

    private static void Forget(string part)
    {
        try
        {
            File.Delete(part);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The first failure is the one to be told.
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
