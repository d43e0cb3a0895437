using EdgeLens.Geometry.Plane;
using OpenCvSharp;

namespace EdgeLens.Imaging.Lines;

/// <summary>A photograph's grey tones in managed memory, sampled between pixels by our own cubic interpolation (OpenCV's remap rounds places to 1/32 pixel).</summary>
public sealed class TonePicture
{
    private readonly byte[] _tones;

    private TonePicture(byte[] tones, int width, int height) => (_tones, Width, Height) = (tones, width, height);

    /// <summary>Pixels.</summary>
    public int Width { get; }

    /// <summary>Pixels.</summary>
    public int Height { get; }

    /// <summary>Copies a picture.</summary>
    /// <param name="grey">CV_8UC1, borrowed.</param>
    /// <exception cref="ArgumentException">Not an 8-bit picture of one channel.</exception>
    public static TonePicture Of(Mat grey)
    {
        ArgumentNullException.ThrowIfNull(grey);
        if (grey.Type() != MatType.CV_8UC1) throw new ArgumentException($"Expected CV_8UC1, got {grey.Type()}.", nameof(grey));
        int width = grey.Cols, height = grey.Rows;
        byte[] tones = new byte[width * height];
        for (int y = 0; y < height; y++) grey.RowSpan<byte>(y).CopyTo(tones.AsSpan(y * width, width));
        return new(tones, width, height);
    }

    /// <summary>Wraps tones that are there already; for drawn pictures.</summary>
    /// <param name="tones">Row by row, width × height.</param>
    /// <param name="width">Pixels.</param>
    public static TonePicture Of(byte[] tones, int width)
    {
        ArgumentNullException.ThrowIfNull(tones);
        return new(tones, width, tones.Length / width);
    }

    /// <summary>Row of tones.</summary>
    public ReadOnlySpan<byte> Row(int y) => _tones.AsSpan(y * Width, Width);

    /// <summary>True where <see cref="Sample"/> has all the pixels it needs.</summary>
    public bool Holds(PixelPoint p) => p.X >= 1 && p.Y >= 1 && p.X < Width - 2 && p.Y < Height - 2;

    /// <summary>Tone between pixels, 0 to 255: cubic convolution, a = -1/2 (Keys, IEEE ASSP 29 (1981) 1153-1160); at the rim the nearest that can be had.</summary>
    public double Sample(double x, double y)
    {
        x = Math.Clamp(x, 1, Width - 2.001);
        y = Math.Clamp(y, 1, Height - 2.001);
        int ix = (int)x, iy = (int)y;
        double tx = x - ix, ty = y - iy, sum = 0;
        Span<double> wx = stackalloc double[4];
        Weights(tx, wx);
        Span<double> wy = stackalloc double[4];
        Weights(ty, wy);
        for (int j = 0; j < 4; j++)
        {
            ReadOnlySpan<byte> row = _tones.AsSpan((iy - 1 + j) * Width + ix - 1, 4);
            sum += wy[j] * (wx[0] * row[0] + wx[1] * row[1] + wx[2] * row[2] + wx[3] * row[3]);
        }
        return sum;
    }

    private static void Weights(double t, Span<double> w)
    {
        w[0] = t * (-0.5 + t * (1 - 0.5 * t));
        w[1] = 1 + t * t * (-2.5 + 1.5 * t);
        w[2] = t * (0.5 + t * (2 - 1.5 * t));
        w[3] = t * t * (-0.5 + 0.5 * t);
    }
}
