using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Lines;
using EdgeLens.Imaging.Photographs;

namespace EdgeLens.Tests.Angles;

/// <summary>A picture of a wedge of exactly known angle: two half planes' common part, brighter than the ground, blurred exactly, with seeded noise.</summary>
/// <remarks>Near a straight edge and far from the tip, the blurred wedge is the product of two blurred steps; the stretches used keep 20 px from the tip.</remarks>
internal sealed class DrawnWedge
{
    public const int Size = 204;

    private static readonly PixelPoint Tip = new(102.3, 101.7);

    private readonly double _faceRad, _angleRad;

    public DrawnWedge(double faceDeg, double angleDeg, double blurPx, double ground, double steel, double noiseTone, int seed)
    {
        (_faceRad, _angleRad) = (faceDeg * Math.PI / 180, angleDeg * Math.PI / 180);
        Random random = new(seed);
        byte[] tones = new byte[Size * Size];
        Stretch face = Stretch(0), bevel = Stretch(_angleRad);
        for (int y = 0; y < Size; y++)
            for (int x = 0; x < Size; x++)
            {
                double light = ground + (steel - ground) * Inside(face, x, y, blurPx) * Inside(bevel, x, y, blurPx);
                double tone = 255 * LinearLight.Encode(light) + noiseTone * Normal(random);
                tones[y * Size + x] = (byte)Math.Clamp(Math.Round(tone), 0, 255);
            }
        Picture = TonePicture.Of(tones, Size);
    }

    public TonePicture Picture { get; }

    /// <summary>The face's edge, 20 to 90 px from the tip, moved and turned by a start's error.</summary>
    public Stretch Face(double offsetPx, double turn) => Part(Stretch(0)).Moved(offsetPx, turn);

    /// <summary>The bevel's edge, likewise.</summary>
    public Stretch Bevel(double offsetPx, double turn) => Part(Stretch(_angleRad)).Moved(offsetPx, turn);

    /// <summary>Standard normal number by Box and Muller.</summary>
    public static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private Stretch Stretch(double angleRad)
    {
        double mid = _faceRad + _angleRad / 2, a = _faceRad + angleRad;
        PixelPoint far = new(Tip.X - 140 * Math.Cos(a), Tip.Y - 140 * Math.Sin(a)), inside = new(Tip.X - 50 * Math.Cos(mid), Tip.Y - 50 * Math.Sin(mid));
        return EdgeLens.Imaging.Lines.Stretch.Between(Tip, far, inside);
    }

    private static Stretch Part(Stretch whole) => EdgeLens.Imaging.Lines.Stretch.Between(whole.At(20, 0), whole.At(90, 0), whole.At(50, -50));

    private static double Inside(Stretch edge, double x, double y, double blurPx)
    {
        double outward = (x - edge.Start.X) * edge.Outward.X + (y - edge.Start.Y) * edge.Outward.Y;
        return 0.5 * MathNet.Numerics.SpecialFunctions.Erfc(outward / blurPx / Math.Sqrt(2));
    }
}
