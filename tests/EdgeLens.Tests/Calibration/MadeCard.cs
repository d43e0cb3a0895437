using System.Collections.Immutable;
using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Tests.Cards;
using OpenCvSharp;

namespace EdgeLens.Tests.Calibration;

/// <summary>Cameras over a card with known truth: geometries, corners with known noise, and pictures with known blur and noise.</summary>
internal static class MadeCard
{
    /// <summary>Fine pixels along a side of a pixel, and samples along a side of a fine pixel at a border: light is blurred before it is sampled, as by a lens.</summary>
    private const int Fine = 2, Samples = 13;

    /// <summary>A camera over the window's middle.</summary>
    /// <param name="widthPx">Of the picture; its height is three quarters of that.</param>
    /// <param name="fieldMm">How much of the card the picture's width shows.</param>
    /// <param name="distanceMm">Along the axis.</param>
    /// <param name="tiltXDeg">Lean of the card along the picture's x.</param>
    /// <param name="tiltYDeg">Lean along y.</param>
    /// <param name="rollDeg">About the axis.</param>
    /// <param name="k1">Of the lens.</param>
    public static CardGeometry Geometry(
        int widthPx = 4000, double fieldMm = 28, double distanceMm = 110, double tiltXDeg = 4, double tiltYDeg = -3, double rollDeg = 2, double k1 = 0.2)
    {
        const double rad = Math.PI / 180;
        Rotation3 rotation = Rotation3.Identity.ThenTurned(new(0, 0, rollDeg * rad)).ThenTurned(new(tiltYDeg * rad, -tiltXDeg * rad, 0));
        CameraModel camera = new(distanceMm * widthPx / fieldMm, (widthPx - 1) / 2.0, (widthPx * 3 / 4 - 1) / 2.0, k1);
        return new(camera, 1, 1, 0, rotation, new(0.6, -0.4, distanceMm), DefaultCard.Card.Window.Centre);
    }

    /// <summary>A camera, print and lens drawn from what the calibrator takes for granted about them, tilted by up to 12°; the same seed gives the same.</summary>
    public static CardGeometry Draw(Random random, int widthPx = 4000)
    {
        double tilt = 12 * Math.Sqrt(random.NextDouble()), towards = 2 * Math.PI * random.NextDouble(), centre = BundlePriors.CentreSpread * widthPx;
        CardGeometry g = Geometry(
            widthPx, 24 + 6 * random.NextDouble(), Math.Max(60, Normal(random, 115, 20)), tilt * Math.Cos(towards), tilt * Math.Sin(towards), Normal(random, 0, 3), Normal(random, 0, 0.3));
        return g with
        {
            Camera = g.Camera with { CentreXPx = Normal(random, g.Camera.CentreXPx, centre), CentreYPx = Normal(random, g.Camera.CentreYPx, centre) },
            PrintScaleX = Normal(random, 1, 0.005),
            PrintScaleY = Normal(random, 1, 0.005),
            InkSpreadMm = Normal(random, 0, 0.005),
        };
    }

    /// <summary>The bars as a caliper reads them.</summary>
    public static PrintMeasurement Bars(CardGeometry truth, Random random) =>
        PrintMeasurement.FromReadings(Normal(random, 40 * truth.PrintScaleX, PrintMeasurement.CaliperStandardDeviationMm), Normal(random, 30 * truth.PrintScaleY, PrintMeasurement.CaliperStandardDeviationMm));

    /// <summary>All corners that lie in the picture, with normal noise.</summary>
    public static CardSighting Sighting(CardGeometry truth, Random random, double noisePx, Func<DesignPoint, bool>? visible = null)
    {
        CardDescription card = DefaultCard.Card;
        int width = (int)Math.Round(Geometry().Camera.CentreXPx * 2 + 1);
        int height = width * 3 / 4;
        var corners = ImmutableArray.CreateBuilder<CardCorner>();
        Span<double> dx = stackalloc double[CardGeometry.ParameterCount], dy = stackalloc double[CardGeometry.ParameterCount];
        foreach (DesignPoint p in card.BoardCorners) Add(p, CornerKind.Board, dx, dy);
        foreach (int id in card.StandingMarkers)
            for (int k = 0; k < 4; k++) Add(card.MarkerCorners(id)[k], MarkerReader.KindOf(k), dx, dy);
        return new(width, height, corners.Count / 6, corners.ToImmutable(), 1);

        void Add(DesignPoint design, CornerKind kind, Span<double> dx, Span<double> dy)
        {
            PixelPoint p = CornerProjection.Project(truth, new(design, new(0, 0), kind, 1), dx, dy);
            if (p.X < 12 || p.Y < 12 || p.X > width - 12 || p.Y > height - 12 || visible?.Invoke(design) == false) return;
            corners.Add(new(design, new(Normal(random, p.X, noisePx), Normal(random, p.Y, noisePx)), kind, noisePx));
        }
    }

    /// <summary>Every other column of squares, where many trials are made: half of the corners, half of the time.</summary>
    public static bool IsInSparseColumn(DesignPoint p) => Math.Floor((p.XMm - 2.8) / 2) % 2 == 0;

    /// <summary>The picture that this camera takes: OpenCV's own drawing of the board, 26 x 26 samples to a pixel, Gaussian blur in linear light, noise, sRGB tones.</summary>
    /// <param name="truth">Camera.</param>
    /// <param name="widthPx">Of the picture; its height is three quarters of that.</param>
    /// <param name="blurSigmaPx">Standard deviation.</param>
    /// <param name="noise">Standard deviation in linear light, share of full scale.</param>
    /// <param name="random">For the noise.</param>
    /// <param name="covered">What hides the card, pixel coordinates; grey steel.</param>
    /// <returns>CV_8UC1, owned by the caller.</returns>
    public static Mat Picture(CardGeometry truth, int widthPx, double blurSigmaPx, double noise, Random random, Func<double, double, bool>? covered = null)
    {
        const double paper = 0.38, ink = 0.025, steel = 0.15;
        int width = widthPx, height = widthPx * 3 / 4;
        MadeBoard board = MadeBoard.Of(DefaultCard.Card);
        using Mat fine = new(Fine * height, Fine * width, MatType.CV_32FC1);
        (CardPoint At, bool White)[] upper = FineBorders(0), lower;
        for (int y = 0; y < Fine * height; y++, upper = lower)
        {
            lower = FineBorders(y + 1);
            Span<float> row = fine.RowSpan<float>(y);
            for (int x = 0; x < Fine * width; x++)
                row[x] = covered?.Invoke(x / Fine, y / Fine) == true ? (float)steel : (float)(ink + (paper - ink) * WhiteShare(upper[x], upper[x + 1], lower[x], lower[x + 1]));
        }
        Cv2.GaussianBlur(fine, fine, new Size(0, 0), Fine * blurSigmaPx);
        using Mat light = new();
        Cv2.Resize(fine, light, new Size(width, height), 0, 0, InterpolationFlags.Area);
        Mat tones = new(height, width, MatType.CV_8UC1);
        for (int y = 0; y < height; y++)
        {
            Span<float> from = light.RowSpan<float>(y);
            Span<byte> to = tones.RowSpan<byte>(y);
            for (int x = 0; x < width; x++) to[x] = (byte)Math.Round(255 * LinearLight.Encode(Math.Clamp(Normal(random, from[x], noise), 0, 1)));
        }
        return tones;

        bool White(CardPoint p) => board.IsWhite(new(p.XMm / truth.PrintScaleX, p.YMm / truth.PrintScaleY));

        // Within one fine pixel the map is bilinear to 1e-5 px; a bit is many pixels wide, so that four corners alike are a pixel without a border.
        double WhiteShare((CardPoint At, bool White) upperLeft, (CardPoint At, bool White) upperRight, (CardPoint At, bool White) lowerLeft, (CardPoint At, bool White) lowerRight)
        {
            bool first = upperLeft.White;
            if (upperRight.White == first && lowerLeft.White == first && lowerRight.White == first) return first ? 1 : 0;
            (CardPoint a, CardPoint b, CardPoint c, CardPoint d) = (upperLeft.At, upperRight.At, lowerLeft.At, lowerRight.At);
            int white = 0;
            for (int i = 0; i < Samples * Samples; i++)
            {
                double s = (i % Samples + 0.5) / Samples, t = (i / Samples + 0.5) / Samples;
                if (White(new(Mix(a.XMm, b.XMm, c.XMm, d.XMm, s, t), Mix(a.YMm, b.YMm, c.YMm, d.YMm, s, t)))) white++;
            }
            return (double)white / (Samples * Samples);
        }

        // The corners of the fine pixels above a row of them.
        (CardPoint At, bool White)[] FineBorders(int fineRow)
        {
            var corners = new (CardPoint, bool)[Fine * width + 1];
            for (int x = 0; x < corners.Length; x++)
            {
                CardPoint p = truth.ToPlane(new((double)x / Fine - 0.5, (double)fineRow / Fine - 0.5), 0);
                corners[x] = (p, White(p));
            }
            return corners;
        }
    }

    private static double Mix(double a, double b, double c, double d, double s, double t) => (1 - t) * ((1 - s) * a + s * b) + t * ((1 - s) * c + s * d);

    public static double Normal(Random random, double mean, double sd) => sd > 0 ? MathNet.Numerics.Distributions.Normal.Sample(random, mean, sd) : mean;
}
