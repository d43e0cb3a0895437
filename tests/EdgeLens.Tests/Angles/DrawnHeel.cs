using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Lines;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.HeelSection;

namespace EdgeLens.Tests.Angles;

/// <summary>
/// The heel of a scaler as a toe view shows it, of exactly known corners: a bright neck that widens downwards, below the chord of both corners the dark lateral surfaces; blurred exactly, with
/// seeded noise.
/// </summary>
/// <remarks>All outlines are straight, and the figure is convex: away from the corners the blurred figure is the product of blurred half planes.</remarks>
internal sealed class DrawnHeel
{
    public const double MmPerPx = 0.008;

    private const int Width = 260, Height = 200;
    private const double HalfPx = 75, NeckLeanDeg = 22;

    private readonly Vector2 _along;

    /// <param name="turnDeg">Of the chord, clockwise in the picture.</param>
    /// <param name="leftDeg">Internal angle at the picture's left corner.</param>
    /// <param name="rightDeg">The same at the right corner.</param>
    /// <param name="blurPx">Gaussian.</param>
    /// <param name="lateral">Light of the lateral surfaces; the window has 0.015, the neck 0.45.</param>
    /// <param name="noiseTone">Standard deviation, tones.</param>
    /// <param name="seed">Of the noise.</param>
    /// <param name="foldPx">Radius of a bowed edge that stands out before the right corner; 0: none.</param>
    public DrawnHeel(double turnDeg, double leftDeg, double rightDeg, double blurPx, double lateral, double noiseTone, int seed, double foldPx = 0)
    {
        double turn = turnDeg * Math.PI / 180;
        _along = new(Math.Cos(turn), Math.Sin(turn));
        Stretch[] sides = [Side(-1, leftDeg, true), Side(-1, leftDeg, false), Side(1, rightDeg, true), Side(1, rightDeg, false)];
        Stretch chord = Stretch.Between(Corner(-1), Corner(1), new(130, 0));
        // A bowed edge before the right corner: a disc that stands out beside the neck and touches the lateral line.
        Stretch below = sides[3];
        PixelPoint centre = below.At(foldPx * 0.6, -foldPx);
        Random random = new(seed);
        byte[] tones = new byte[Width * Height];
        for (int y = 0; y < Height; y++)
            for (int x = 0; x < Width; x++)
            {
                double above = Inside(chord, x, y, blurPx), body = foldPx > 0 ? Inside(Moved(sides[2], -foldPx), x, y, blurPx) : Inside(sides[2], x, y, blurPx);
                body *= Inside(sides[0], x, y, blurPx) * Inside(sides[1], x, y, blurPx) * Inside(below, x, y, blurPx);
                double disc = foldPx > 0 ? Step(foldPx - new Vector2(x - centre.X, y - centre.Y).Length, blurPx) : 0, steel = Math.Max(body, disc);
                double light = 0.015 + steel * (lateral - 0.015 + (0.45 - lateral) * above * (disc > body ? 0 : 1));
                tones[y * Width + x] = (byte)Math.Clamp(Math.Round(255 * LinearLight.Encode(light) + noiseTone * DrawnWedge.Normal(random)), 0, 255);
            }
        Picture = TonePicture.Of(tones, Width);
    }

    public TonePicture Picture { get; }

    /// <summary>Exact.</summary>
    public PixelPoint Corner(int side) => new(130.4 + side * HalfPx * _along.X, 70.3 + side * HalfPx * _along.Y);

    /// <summary>Where the neck's end is thought to be: some pixels and degrees off.</summary>
    public NeckEnd Neck(int side)
    {
        PixelPoint corner = Corner(side);
        double lean = (NeckLeanDeg + 6) * Math.PI / 180;
        return new(side, new(corner.X + 2, corner.Y - 4), new(corner.X - side * 60, corner.Y - 4), new(-side * Math.Sin(lean), -Math.Cos(lean)), new(0, 1), new(side, 0));
    }

    private Stretch Side(int side, double internalDeg, bool neck)
    {
        PixelPoint corner = Corner(side), middle = new(130.4, 70.3);
        double turned = internalDeg * Math.PI / 180, lean = NeckLeanDeg * Math.PI / 180;
        Vector2 inward = -side * _along, down = _along.Perpendicular, to = neck ? new(-side * Math.Sin(lean), -Math.Cos(lean)) : Math.Cos(turned) * inward + Math.Sin(turned) * (down.Y > 0 ? down : -1 * down);
        return Stretch.Between(corner, new(corner.X + 100 * to.X, corner.Y + 100 * to.Y), middle);
    }

    private static Stretch Moved(Stretch line, double outwardPx) => line with { Start = line.At(0, outwardPx) };

    private static double Inside(Stretch edge, double x, double y, double blurPx) => Step(-((x - edge.Start.X) * edge.Outward.X + (y - edge.Start.Y) * edge.Outward.Y), blurPx);

    private static double Step(double inwardPx, double blurPx) => 0.5 * MathNet.Numerics.SpecialFunctions.Erfc(-inwardPx / blurPx / Math.Sqrt(2));
}
