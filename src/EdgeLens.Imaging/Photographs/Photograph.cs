using OpenCvSharp;

namespace EdgeLens.Imaging.Photographs;

/// <summary>A decoded photograph, upright. Owns its pixels: whoever reads one disposes it.</summary>
public sealed class Photograph : IDisposable
{
    private static int s_living;

    private readonly Mat _bgr;
    private readonly Mat _grey;
    private int _disposed;

    /// <summary>Takes over <paramref name="bgr"/> and <paramref name="grey"/>.</summary>
    internal Photograph(PhotographSource source, Mat bgr, Mat grey)
    {
        Source = source;
        _bgr = bgr;
        _grey = grey;
        Interlocked.Increment(ref s_living);
    }

    /// <summary>How many photographs hold pixels at the moment: tests see by it that none is forgotten.</summary>
    public static int LivingCount => Volatile.Read(ref s_living);

    /// <summary>File, camera, size.</summary>
    public PhotographSource Source { get; }

    /// <summary>Width after turning upright.</summary>
    public int WidthPx => Source.WidthPx;

    /// <summary>Height after turning upright.</summary>
    public int HeightPx => Source.HeightPx;

    /// <summary>CV_8UC3, blue, green, red, tone values as in the file. Borrowed: read only, not to be disposed or kept.</summary>
    /// <exception cref="ObjectDisposedException">After disposal.</exception>
    public Mat Bgr => Living(_bgr);

    /// <summary>CV_8UC1, luma 0.299 R + 0.587 G + 0.114 B of the tone values (ITU-R BT.601). Borrowed: read only, not to be disposed or kept.</summary>
    /// <exception cref="ObjectDisposedException">After disposal.</exception>
    public Mat Grey => Living(_grey);

    /// <inheritdoc />
    public void Dispose()
    {
        if (Interlocked.Exchange(ref _disposed, 1) != 0) return;
        _bgr.Dispose();
        _grey.Dispose();
        Interlocked.Decrement(ref s_living);
    }

    private Mat Living(Mat mat)
    {
        ObjectDisposedException.ThrowIf(_disposed != 0, this);
        return mat;
    }
}
