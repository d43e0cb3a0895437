using OpenCvSharp;

namespace EdgeLens.Imaging.Photographs;

/// <summary>The native library that decodes pixels, asked for once at the door so that its absence is told in words and not as a failed type initialiser.</summary>
public static class OpenCvRuntime
{
    /// <summary>Loads the native library; cheap after the first time (about 35 ms).</summary>
    /// <exception cref="OpenCvMissingException">The library or one of the system libraries that it needs is not there.</exception>
    public static void Require()
    {
        try
        {
            // The decoders report damaged files on the console as well; a refusal says it better.
            Cv2.SetLogLevel(LogLevel.SILENT);
        }
        catch (Exception e) when (OpenCvMissingException.Explain(e) is { } missing)
        {
            throw missing;
        }
    }
}

/// <summary>OpenCV's native library cannot be loaded: a matter of the machine, not of a photograph. The message says what to install.</summary>
public sealed class OpenCvMissingException : Exception
{
    private OpenCvMissingException(string message, Exception inner) : base(message, inner)
    {
    }

    /// <summary>The exception with advice, when a failure came from a native library that could not be loaded; else null.</summary>
    internal static OpenCvMissingException? Explain(Exception failure)
    {
        for (Exception? e = failure; e is not null; e = e.InnerException)
        {
            if (e is DllNotFoundException or BadImageFormatException)
                return new("OpenCV's native library cannot be loaded. On Debian 12 install what it needs:\n" +
                    "    apt-get install -y --no-install-recommends libgtk-3-0 libatomic1 libdrm2\n" +
                    $"(Ubuntu 24.04: libgtk-3-0t64 in place of libgtk-3-0.) The system said: {Cause(e.Message)}", failure);
        }

        return null;
    }

    /// <summary>The runtime lists every place where it looked for OpenCV's own file; the line that counts names another library, the one that is missing.</summary>
    private static string Cause(string message)
    {
        string[] lines = message.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        return lines.FirstOrDefault(line => line.Contains(".so", StringComparison.Ordinal) && !line.Contains("OpenCvSharpExtern", StringComparison.Ordinal)) ?? lines[0];
    }
}
