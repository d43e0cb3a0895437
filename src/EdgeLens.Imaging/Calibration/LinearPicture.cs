using OpenCvSharp;

namespace EdgeLens.Imaging.Calibration;

/// <summary>A grey picture's bytes with the table that turns tone values into linear light (IEC 61966-2-1, sRGB).</summary>
/// <remarks>Edges lie at half of the LIGHT: in tone values the half-way point of a black to white border lies about half a blur towards the black.</remarks>
internal sealed class LinearPicture
{
    private static readonly float[] LightOfTone = [.. Enumerable.Range(0, 256).Select(v => (float)Decode(v / 255.0))];
    private readonly byte[] _tones;

    /// <param name="grey8">8-bit, one channel; borrowed, copied.</param>
    public LinearPicture(Mat grey8)
    {
        (Width, Height) = (grey8.Cols, grey8.Rows);
        _tones = new byte[Width * Height];
        for (int y = 0; y < Height; y++) grey8.RowSpan<byte>(y).CopyTo(_tones.AsSpan(y * Width, Width));
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>A square patch in linear light, 0 to 1, each of its values the mean over <paramref name="bin"/> x <paramref name="bin"/> pixels.</summary>
    /// <param name="left">First pixel's column.</param>
    /// <param name="top">First pixel's row.</param>
    /// <param name="size">Values along a side.</param>
    /// <param name="bin">Pixels along a side of each value.</param>
    /// <returns>Row by row, or null when the patch leaves the picture.</returns>
    public float[]? Patch(int left, int top, int size, int bin)
    {
        if (left < 0 || top < 0 || left + size * bin > Width || top + size * bin > Height) return null;
        var light = new float[size * size];
        for (int y = 0; y < size * bin; y++)
        {
            ReadOnlySpan<byte> tones = _tones.AsSpan((top + y) * Width + left, size * bin);
            Span<float> row = light.AsSpan(y / bin * size, size);
            for (int x = 0, k = 0; x < size; x++)
                for (int b = 0; b < bin; b++) row[x] += LightOfTone[tones[k++]];
        }
        float share = 1f / (bin * bin);
        if (bin > 1)
            for (int i = 0; i < light.Length; i++) light[i] *= share;
        return light;
    }

    private static double Decode(double v) => v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4);
}
