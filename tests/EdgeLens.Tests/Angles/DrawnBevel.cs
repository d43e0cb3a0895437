using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Lines;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.SideView;
using OpenCvSharp;

namespace EdgeLens.Tests.Angles;

/// <summary>The end of a blade on edge, drawn with exactly known form: face, bevel, second bevel, rounding; anti-aliased, blurred in linear light, with seeded noise.</summary>
internal sealed record DrawnBevel
{
    public const double MmPerPx = 0.008;

    private const int Size = 170, Fine = 4;

    // Tip in pixels and how far the back lies below the face.
    public const double TipX = 150, TipY = 30;

    private const double DepthMm = 0.62;

    public double BevelDeg { get; init; } = 45;

    /// <summary>Along its surface from its corner with the face; 0 for none.</summary>
    public double SecondMm { get; init; }

    public double SteeperDeg { get; init; }

    /// <summary>Rounding between face and bevel.</summary>
    public double RadiusMm { get; init; }

    public double BlurPx { get; init; } = 1;

    public double Ground { get; init; } = 0.020;

    public double Steel { get; init; } = 0.035;

    public double NoiseTone { get; init; } = 1.5;

    /// <summary>Blur of the noise, as a JPEG's: neighbouring pixels share it.</summary>
    public double NoiseBlurPx { get; init; }

    public int Seed { get; init; }

    /// <summary>The bevel's line as a search may have left it, pixels off at its middle, and turned.</summary>
    public double OffPx { get; init; }

    public double TurnedRad { get; init; }

    public static BladeMiddle Middle { get; } = new(new(0, 0.03), new(0, 0.03));

    public BevelLine Lines
    {
        get
        {
            // The tip of the main bevel's own line: the second bevel takes its front away.
            double beta = BevelDeg * Math.PI / 180, ahead = Ahead;
            PixelPoint corner = new(TipX + ahead, TipY);
            PixelPoint At(double mm) => new(corner.X - mm / MmPerPx * Math.Cos(beta), corner.Y + mm / MmPerPx * Math.Sin(beta));
            Stretch bevel = Stretch.Between(At(0.1), At(0.6), new(At(0.3).X - 50, At(0.3).Y)).Moved(OffPx, TurnedRad);
            return new(Edge(TipY, 1), Edge(TipY + DepthMm / MmPerPx, -1), new(bevel, 0.003, 0.1, BlurPx, false, NoiseTone, 10), 1);
        }
    }

    /// <summary>How far the bevel's own line would reach before the tip, pixels.</summary>
    private double Ahead
    {
        get
        {
            double beta = BevelDeg * Math.PI / 180, edge = (BevelDeg + SteeperDeg) * Math.PI / 180;
            return SecondMm / MmPerPx * (Math.Sin(edge) / Math.Tan(beta) - Math.Cos(edge));
        }
    }

    public TonePicture Draw()
    {
        using Mat fine = new(Size * Fine, Size * Fine, MatType.CV_32FC1);
        for (int y = 0; y < Size * Fine; y++)
        {
            Span<float> row = fine.RowSpan<float>(y);
            for (int x = 0; x < row.Length; x++) row[x] = IsSteel((x + 0.5) / Fine - 0.5, (y + 0.5) / Fine - 0.5) ? 1 : 0;
        }
        Cv2.GaussianBlur(fine, fine, new Size(0, 0), BlurPx * Fine);
        using Mat noise = new(Size, Size, MatType.CV_32FC1);
        Random random = new(Seed);
        for (int y = 0; y < Size; y++)
        {
            Span<float> row = noise.RowSpan<float>(y);
            for (int x = 0; x < Size; x++) row[x] = (float)DrawnWedge.Normal(random);
        }
        if (NoiseBlurPx > 0)
        {
            Cv2.GaussianBlur(noise, noise, new Size(0, 0), NoiseBlurPx);
            Cv2.MeanStdDev(noise, out _, out Scalar sd);
            noise.ConvertTo(noise, -1, 1 / sd.Val0);
        }
        byte[] tones = new byte[Size * Size];
        for (int y = 0; y < Size; y++)
        {
            ReadOnlySpan<float> random1 = noise.RowSpan<float>(y);
            for (int x = 0; x < Size; x++)
            {
                double share = 0;
                for (int i = 0; i < Fine; i++)
                {
                    ReadOnlySpan<float> row = fine.RowSpan<float>(y * Fine + i);
                    for (int j = 0; j < Fine; j++) share += row[x * Fine + j];
                }
                double tone = 255 * LinearLight.Encode(Ground + (Steel - Ground) * share / (Fine * Fine)) + NoiseTone * random1[x];
                tones[y * Size + x] = (byte)Math.Clamp(Math.Round(tone), 0, 255);
            }
        }
        return TonePicture.Of(tones, Size);
    }

    private bool IsSteel(double x, double y)
    {
        double back = TipX - x, down = y - TipY, beta = BevelDeg * Math.PI / 180, edge = (BevelDeg + SteeperDeg) * Math.PI / 180;
        if (down < 0 || down > DepthMm / MmPerPx || Outside(back + Ahead, down, beta) > 0 || (SecondMm > 0 && Outside(back, down, edge) > 0)) return false;
        double r = RadiusMm / MmPerPx;
        // Before both points of touch only the circle is steel.
        double cx = r / Math.Tan(beta / 2) - back, cy = down - r;
        bool beforeBoth = cx > 0 && cx * Math.Cos(beta) - cy * Math.Sin(beta) > 0;
        return !beforeBoth || cx * cx + cy * cy <= r * r;
    }

    private static double Outside(double back, double down, double angle) => down * Math.Cos(angle) - back * Math.Sin(angle);

    private static StraightEdge Edge(double y, int steel) =>
        new(Stretch.Between(new(TipX - 4.2 / MmPerPx, y), new(TipX - 1.9 / MmPerPx, y), new(TipX - 3 / MmPerPx, y + 50 * steel)), 0, 0, 1, false, 1, 100);
}
