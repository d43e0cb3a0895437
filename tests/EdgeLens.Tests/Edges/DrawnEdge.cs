using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Tests.Fitting;
using OpenCvSharp;
using static MathNet.Numerics.SpecialFunctions;

namespace EdgeLens.Tests.Edges;

/// <summary>
/// A square picture of one straight edge, drawn without the program's model code: MathNet's erf instead of the table, integration over each pixel by 4 x 4
/// places instead of a grid across the edge, OpenCV's filter for the sharpening. What it shares with the program is the physics of docs/physics/edge-profile.md.
/// </summary>
internal sealed record DrawnEdge
{
    public const int SizePx = 36;
    private const int PerPixel = 4;

    /// <summary>Silhouette along the outward normal, from the picture's middle.</summary>
    public double PlacePx { get; init; }

    public double DirectionDeg { get; init; }
    public double RadiusPx { get; init; }
    public double FaceLevel { get; init; } = 0.25;
    public double FaceSlope { get; init; }
    public double GroundLevel { get; init; } = 0.02;

    /// <summary>The pixel's own square (variance 1/12) is part of it.</summary>
    public double BlurPx { get; init; } = 1;

    public double SharpeningAmount { get; init; }

    /// <summary>A lit level of 0 shows no band.</summary>
    public RoundingLight Light { get; init; }

    public Vector2 Outward => new(Math.Cos(DirectionDeg * Math.PI / 180), Math.Sin(DirectionDeg * Math.PI / 180));

    /// <summary>The piece of edge where the program is told to look: the picture's middle, off the silhouette by <see cref="PlacePx"/>.</summary>
    public EdgePlace Supposed => new(new((SizePx - 1) / 2.0, (SizePx - 1) / 2.0), Outward, 0, 4.5, EdgeProfileModel.ReachPx);

    /// <summary>Tone values, 0..1, without noise; CV_32FC1, owned by the caller.</summary>
    public Mat Tones()
    {
        Mat tones = new(SizePx, SizePx, MatType.CV_32FC1);
        // What the lens still has to blur: the 4 x 4 places have the square's variance less a sixteenth.
        double lens = Math.Sqrt(BlurPx * BlurPx - (1 - 1.0 / (PerPixel * PerPixel)) / 12), middle = (SizePx - 1) / 2.0;
        for (int y = 0; y < SizePx; y++)
        {
            Span<float> row = tones.RowSpan<float>(y);
            for (int x = 0; x < SizePx; x++)
            {
                double sum = 0;
                for (int k = 0; k < PerPixel * PerPixel; k++)
                {
                    double dx = x - middle + (k % PerPixel + 0.5) / PerPixel - 0.5, dy = y - middle + (k / PerPixel + 0.5) / PerPixel - 0.5;
                    sum += LightAt(dx * Outward.X + dy * Outward.Y - PlacePx, lens);
                }
                row[x] = (float)LinearLight.Encode(Math.Clamp(sum / (PerPixel * PerPixel), 0, 1));
            }
        }
        if (SharpeningAmount > 0) Sharpen(tones);
        return tones;
    }

    /// <summary>Light at a distance outside the silhouette, blurred by a Gaussian; the face's slope without the blur of its corner (0.4 sigma times the slope).</summary>
    public double LightAt(double x, double sigma)
    {
        double fall = Math.Sqrt(sigma * sigma + Math.Pow(RoundingLight.DarkSpread * RadiusPx, 2)), edge = x + Light.DarkCentre * RadiusPx;
        double light = GroundLevel + (FaceLevel - GroundLevel) * Below(-edge / fall);
        light += FaceSlope * Math.Min(x, 0) * Below(-edge / fall);
        if (Light.LitLevel <= FaceLevel) return light;
        // Depths at which a rounding has the normals that mirror the panel: from the deepest to the outermost.
        double inner = RadiusPx * (1 - Light.BandStart), outer = RadiusPx * (1 - Light.BandEnd);
        return light + (Light.LitLevel - FaceLevel) * (Below((x + inner) / sigma) - Below((x + outer) / sigma));
    }

    /// <summary>8 bits, with white Gaussian noise; owned by the caller.</summary>
    /// <param name="tones">From <see cref="Tones"/>, borrowed.</param>
    /// <param name="noiseLevels">Standard deviation in grey levels.</param>
    /// <param name="random">Its source.</param>
    public static Mat Photograph(Mat tones, double noiseLevels, Random random)
    {
        Mat grey = new(tones.Size(), MatType.CV_8UC1);
        int rows = tones.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> from = tones.RowSpan<float>(y);
            Span<byte> to = grey.RowSpan<byte>(y);
            for (int x = 0; x < to.Length; x++) to[x] = (byte)Math.Clamp(Math.Round(255 * from[x] + noiseLevels * Noise.Normal(random)), 0, 255);
        }
        return grey;
    }

    /// <summary>The pixels as the program takes them.</summary>
    /// <param name="grey">From <see cref="Photograph"/>, borrowed.</param>
    /// <param name="light">What the program thinks of the light.</param>
    public EdgeBlock Block(Mat grey, RoundingLight light)
    {
        EdgeBlock block = new();
        block.Fill(grey, Supposed, light);
        return block;
    }

    private static double Below(double z) => 0.5 * Erfc(-z / Math.Sqrt(2));

    private void Sharpen(Mat tones)
    {
        using Mat smooth = new();
        Cv2.GaussianBlur(tones, smooth, new Size(0, 0), Sharpening.RadiusPx);
        Cv2.AddWeighted(tones, 1 + SharpeningAmount, smooth, -SharpeningAmount, 0, tones);
        Cv2.Min(tones, 1, tones);
        Cv2.Max(tones, 0, tones);
    }
}
