using EdgeLens.Geometry.Plane;

namespace EdgeLens.Imaging.Lines;

/// <summary>A straight stretch of a picture in pixels: where it begins, where it leads, which side is outside.</summary>
/// <param name="Start">First place.</param>
/// <param name="Along">Unit direction.</param>
/// <param name="Outward">Unit normal away from the steel.</param>
/// <param name="LengthPx">Of the stretch.</param>
public readonly record struct Stretch(PixelPoint Start, Vector2 Along, Vector2 Outward, double LengthPx)
{
    /// <summary>The stretch between two places.</summary>
    /// <param name="from">First place.</param>
    /// <param name="to">Last place, another one.</param>
    /// <param name="inside">Any place on the steel's side.</param>
    public static Stretch Between(PixelPoint from, PixelPoint to, PixelPoint inside)
    {
        Vector2 d = new(to.X - from.X, to.Y - from.Y), u = d.Unit, n = u.Perpendicular;
        bool flip = (inside.X - from.X) * n.X + (inside.Y - from.Y) * n.Y > 0;
        return new(from, u, flip ? -1 * n : n, d.Length);
    }

    /// <summary>Last place.</summary>
    public PixelPoint End => At(LengthPx, 0);

    /// <summary>Place at a distance along and one outwards.</summary>
    public PixelPoint At(double alongPx, double outwardPx) =>
        new(Start.X + alongPx * Along.X + outwardPx * Outward.X, Start.Y + alongPx * Along.Y + outwardPx * Outward.Y);

    /// <summary>Angle by which another stretch leads on turned from this one, within a quarter turn either way, radians; positive clockwise in the picture.</summary>
    public double TurnRad(Stretch other) => Math.Asin(Math.Clamp(Along.Cross(other.Along), -1, 1));

    /// <summary>Where its line crosses that of another stretch.</summary>
    /// <param name="other">Not parallel to it.</param>
    public PixelPoint Crossing(Stretch other) => At(CrossingPx(other), 0);

    /// <summary>The same as a distance along its line from the start, pixels.</summary>
    /// <param name="other">Not parallel to it.</param>
    public double CrossingPx(Stretch other) => new Vector2(other.Start.X - Start.X, other.Start.Y - Start.Y).Dot(other.Outward) / Along.Dot(other.Outward);

    /// <summary>The stretch with its line moved outwards at its middle and turned so that it leads outwards by a slope.</summary>
    public Stretch Moved(double offsetPx, double slope)
    {
        PixelPoint from = At(0, offsetPx - slope * LengthPx / 2), to = At(LengthPx, offsetPx + slope * LengthPx / 2), inside = At(LengthPx / 2, offsetPx - 100);
        return Between(from, to, inside);
    }
}

/// <summary>Tones sampled on a grid of one pixel along a stretch and across it.</summary>
public sealed class LineStrip
{
    private readonly double[] _tones;

    /// <param name="picture">The photograph.</param>
    /// <param name="stretch">Its line.</param>
    /// <param name="inwardPx">How far into the steel.</param>
    /// <param name="outwardPx">How far out.</param>
    public LineStrip(TonePicture picture, Stretch stretch, int inwardPx, int outwardPx)
    {
        ArgumentNullException.ThrowIfNull(picture);
        Stretch = stretch;
        InwardPx = inwardPx;
        Rows = (int)Math.Floor(stretch.LengthPx) + 1;
        Columns = inwardPx + outwardPx + 1;
        _tones = new double[Rows * Columns];
        for (int t = 0; t < Rows; t++)
            for (int k = 0; k < Columns; k++)
            {
                PixelPoint p = stretch.At(t, k - inwardPx);
                _tones[t * Columns + k] = picture.Sample(p.X, p.Y);
            }
    }

    /// <summary>The line.</summary>
    public Stretch Stretch { get; }

    /// <summary>Columns before the line; column k lies k - InwardPx pixels outwards.</summary>
    public int InwardPx { get; }

    /// <summary>Samples along.</summary>
    public int Rows { get; }

    /// <summary>Samples across.</summary>
    public int Columns { get; }

    /// <summary>Tones across at one place along, from inside to outside.</summary>
    public ReadOnlySpan<double> Row(int t) => _tones.AsSpan(t * Columns, Columns);

    /// <summary>Means over neighbours along, so that faint lines that lead along stand out of the noise.</summary>
    /// <param name="half">Neighbours to either side.</param>
    public double[] Smoothed(int half)
    {
        double[] smooth = new double[_tones.Length];
        for (int k = 0; k < Columns; k++)
        {
            for (int t = 0; t < Rows; t++)
            {
                int a = Math.Max(0, t - half), b = Math.Min(Rows - 1, t + half);
                double sum = 0;
                for (int i = a; i <= b; i++) sum += _tones[i * Columns + k];
                smooth[t * Columns + k] = sum / (b - a + 1);
            }
        }
        return smooth;
    }
}
