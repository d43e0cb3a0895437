using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Tests.Fitting;
using MathNet.Numerics.LinearAlgebra;
using OpenCvSharp;

namespace EdgeLens.Tests.Silhouettes;

/// <summary>A camera square to the card's window, 100 mm away, 12 µm per pixel; places are given in millimetres from the window's middle.</summary>
internal static class SquareView
{
    public const int WidthPx = 2200;
    public const int HeightPx = 1000;
    public const double MmPerPx = 0.012;

    public static CardDescription Card { get; } = CardDrawings.Cards.Default;

    public static CardCalibration Calibration { get; } = Calibrate();

    public static Point Pixel(double xMm, double yMm) => new((int)Math.Round((WidthPx - 1) / 2.0 + xMm / MmPerPx), (int)Math.Round((HeightPx - 1) / 2.0 + yMm / MmPerPx));

    /// <summary>Blurs as a lens does and adds noise, in place.</summary>
    public static void Expose(Mat grey, int seed)
    {
        Cv2.GaussianBlur(grey, grey, new Size(0, 0), 1);
        Random random = new(seed);
        int rows = grey.Rows;
        for (int y = 0; y < rows; y++)
            foreach (ref byte tone in grey.RowSpan<byte>(y)) tone = (byte)Math.Clamp(Math.Round(tone + 1.5 * Noise.Normal(random)), 0, 255);
    }

    private static CardCalibration Calibrate()
    {
        CameraModel camera = new(100 / MmPerPx, (WidthPx - 1) / 2.0, (HeightPx - 1) / 2.0, 0);
        CardGeometry geometry = new(camera, 1, 1, 0, Rotation3.Identity, new Vector3(0, 0, 100), Card.Window.Centre);
        Matrix<double> covariance = 1e-8 * Matrix<double>.Build.DenseIdentity(CardGeometry.ParameterCount);
        return new(geometry, covariance, BundlePriors.UnknownLens(WidthPx, HeightPx, new(1, 0.001), new(1, 0.001)), Card, 0.05, 100);
    }
}
