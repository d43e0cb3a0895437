using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Lines;
using EdgeLens.Measuring.ToeView;

namespace EdgeLens.Tests.Angles;

/// <summary>
/// A toe seen straight along the blade, drawn pixel by pixel: the pixel at depth d and x beside the middle shows the steel whose normal has the azimuth ψ with
/// x = cos ψ (w - d cot β), and is as bright as the light from there, a pattern in ψ with seeded noise. Outside the steel it is dark.
/// </summary>
internal sealed class DrawnToe
{
    public const double MmPerPx = 0.0078, HalfWidthMm = 0.42;
    private const int Width = 180, Height = 90;
    private static readonly PixelPoint Middle = new(90.3, 30.6);

    public DrawnToe(double leftDeg, double rightDeg, double noiseTone, int seed, double fall = 0)
    {
        Random random = new(seed);
        byte[] tones = new byte[Width * Height];
        for (int y = 0; y < Height; y++)
            for (int x = 0; x < Width; x++)
            {
                double depth = (y - Middle.Y) * MmPerPx, along = (x - Middle.X) * MmPerPx;
                double half = HalfWidthMm - Math.Max(depth, 0) / Math.Tan((along > 0 ? rightDeg : leftDeg) * Math.PI / 180), cos = Math.Abs(along) / half;
                double azimuth = cos < 1 ? Math.Acos(cos) : 0;
                double light = depth < 0 || cos > 1 ? 12 : (1 - fall * depth) * (70 + 30 * Math.Sin(9 * azimuth) + 18 * Math.Sin(23 * azimuth + 1) + 25 * azimuth);
                tones[y * Width + x] = (byte)Math.Clamp(Math.Round(light + noiseTone * DrawnWedge.Normal(random)), 0, 255);
            }
        Picture = TonePicture.Of(tones, Width);
    }

    public TonePicture Picture { get; }

    /// <summary>The edge as an earlier stage would have found it, moved, widened and turned by its errors.</summary>
    public static ToeEdge Edge(double shiftPx = 0, double wider = 1, double turnDeg = 0)
    {
        (double s, double c) = Math.SinCos(turnDeg * Math.PI / 180);
        return new(new(Middle.X + shiftPx, Middle.Y), new(c, s), 0.005, 0.012, new Measured(HalfWidthMm * wider, 0.01), 0, 0, 0.015, MmPerPx, 1000);
    }
}
