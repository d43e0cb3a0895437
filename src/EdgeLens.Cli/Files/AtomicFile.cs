using System.Text;
using EdgeLens.Cli.Rim;
using EdgeLens.Records.Files;

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
        try
        {
            if (string.IsNullOrWhiteSpace(path) || path.Contains('\0', StringComparison.Ordinal)) throw new IOException("this is not a path");
            Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(path)) ?? throw new IOException("this is a folder"));
            WholeFile.Write(path, write);
        }
        catch (Exception e) when (InputFile.IsOfTheDisk(e))
        {
            throw new RimException(ExitCode.File, $"{path}: the file cannot be written ({e.Message.TrimEnd('.')}). Check the path, the rights and the room on the disk.", e);
        }
    }
}
