using EdgeLens.Cards;
using EdgeLens.Cli.Files;
using OpenCvSharp;

namespace EdgeLens.Tests.Commands;

/// <summary>The flat card as an ideal pinhole camera sees it: made truth for the lens. Light is added up in linear light, as on a sensor.</summary>
internal static class MadeCardPhotograph
{
    public const double FocalPx = 7960;
    public const int WidthPx = 2400, HeightPx = 1800;
    private const double DistanceMm = 95;
    private const int Dpi = 1200;

    /// <param name="pitchDeg">Turn about the picture's x axis.</param>
    /// <param name="yawDeg">Turn about the picture's y axis.</param>
    public static byte[] Png(double pitchDeg, double yawDeg)
    {
        using Mat drawn = Cv2.ImDecode(CardDrawing.ToPng(InputFile.Card(null), Dpi), ImreadModes.Grayscale);
        using Mat coverage = new(), seen = new(), tone = new(), grey = new();
        // Paper at 0.38 of full scale and ink at 0.03: the middle of what photographing.md asks for.
        drawn.ConvertTo(coverage, MatType.CV_32FC1, 0.35 / 255, 0.03);
        using Mat homography = Mat.FromArray(Homography(pitchDeg * Math.PI / 180, yawDeg * Math.PI / 180));
        Cv2.WarpPerspective(coverage, seen, homography, new Size(WidthPx, HeightPx), InterpolationFlags.Linear, BorderTypes.Constant, new Scalar(0.1));
        Cv2.GaussianBlur(seen, seen, new Size(0, 0), 0.9);
        // IEC 61966-2-1, the branch above 0.0031308.
        Cv2.Pow(seen, 1 / 2.4, tone);
        tone.ConvertTo(grey, MatType.CV_8UC1, 255 * 1.055, -255 * 0.055);
        return grey.ToBytes();
    }

    /// <summary>From the drawing's pixels to the photograph's: K [r1 r2 t] after pixels to millimetres; the window's middle (42.8, 26.99) mm stands on the optical axis.</summary>
    private static double[,] Homography(double pitch, double yaw)
    {
        double cp = Math.Cos(pitch), sp = Math.Sin(pitch), cy = Math.Cos(yaw), sy = Math.Sin(yaw), mm = 25.4 / Dpi;
        double[,] cameraFromCard =
        {
            { cy, sy * sp, 0 },
            { 0, cp, 0 },
            { -sy, cy * sp, DistanceMm },
        };
        double[,] cardFromDrawing = { { mm, 0, 0.5 * mm - 42.8 }, { 0, mm, 0.5 * mm - 26.99 }, { 0, 0, 1 } };
        double[,] pixels = { { FocalPx, 0, (WidthPx - 1) / 2.0 }, { 0, FocalPx, (HeightPx - 1) / 2.0 }, { 0, 0, 1 } };
        return Product(pixels, Product(cameraFromCard, cardFromDrawing));
    }

    private static double[,] Product(double[,] a, double[,] b)
    {
        double[,] c = new double[3, 3];
        for (int i = 0; i < 3; i++)
            for (int j = 0; j < 3; j++)
                for (int k = 0; k < 3; k++) c[i, j] += a[i, k] * b[k, j];
        return c;
    }
}
