using System.Globalization;
using System.Text;
using EdgeLens.Cli.Rim;

namespace EdgeLens.Cli.Files;

/// <summary>Writes a file whole or not at all: into a neighbour first, which then takes its name.</summary>
public static class AtomicFile
{
    /// <summary>Writes text as UTF-8.</summary>
    /// <exception cref="RimException">The file cannot be written; an older one is left as it was.</exception>
    public static void Write(string path, string text) => Write(path, stream => stream.Write(Encoding.UTF8.GetBytes(text)));

    /// <summary>Writes what <paramref name="write"/> writes.</summary>
    /// <param name="path">Folders that are missing are made.</param>
    /// <param name="write">When it throws, nothing is left behind.</param>
    /// <exception cref="RimException">The file cannot be written; an older one is left as it was.</exception>
    public static void Write(string path, Action<Stream> write)
    {
        string? neighbour = null;
        try
        {
            if (string.IsNullOrWhiteSpace(path) || path.Contains('\0', StringComparison.Ordinal)) throw new IOException("this is not a path");
            string whole = Path.GetFullPath(path), folder = Path.GetDirectoryName(whole) ?? throw new IOException("this is a folder");
            Directory.CreateDirectory(folder);
            // On the same disk as the file, or taking its name would be a copy; with the process in its name, so that two runs don't write into one.
            neighbour = Path.Combine(folder, "." + Path.GetFileName(whole) + "." + Environment.ProcessId.ToString(CultureInfo.InvariantCulture) + ".part");
            using (FileStream stream = new(neighbour, FileMode.Create, FileAccess.Write, FileShare.None))
            {
                write(stream);
                stream.Flush(flushToDisk: true);
            }
            File.Move(neighbour, whole, overwrite: true);
        }
        catch (Exception e)
        {
            if (neighbour is not null) Forget(neighbour);
            if (!InputFile.IsOfTheDisk(e)) throw;
            throw new RimException(ExitCode.File, $"{path}: the file cannot be written ({e.Message.TrimEnd('.')}). Check the path, the rights and the room on the disk.", e);
        }
    }

    private static void Forget(string neighbour)
    {
        try
        {
            File.Delete(neighbour);
        }
        catch (Exception e) when (InputFile.IsOfTheDisk(e))
        {
            // The first failure is the one to be told.
        }
    }
}
