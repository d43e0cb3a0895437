using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Imaging.Tags;
using EdgeLens.Measuring.Inspection;
using EdgeLens.Measuring.Quality;
using OpenCvSharp;

namespace EdgeLens.Tests.Tags;

/// <summary>A tag laid on the card of a photograph: drawn in linear light where the photograph's own geometry puts it, as bright, as blurred and as noisy as the card is there.</summary>
internal static class TaggedPhotograph
{
    /// <summary>What a strip of paper lies like: its top left corner on the card, mm; turned clockwise; larger than designed by a factor.</summary>
    public sealed record Strip(int Number, double XMm, double YMm, double TurnDeg = 0, double Size = 1);

    /// <summary>The middle of the strip's marker right of the middle and below the window of the card id1-2.0, as docs/photographing.md says.</summary>
    public static Strip Usual(int number, double turnDeg = 0) => new(number, 46, 32.4, turnDeg);

    /// <summary>A JPEG file (quality 95) of the photograph with strips on its card.</summary>
    public static byte[] Jpeg(ReadOnlyMemory<byte> file, CardDescription card, params Strip[] strips)
    {
        using Photograph photo = PhotographReader.Read(file, "photograph").Value;
        CardCalibration calibration = CardStage.Calibrate(photo, card, PrintMeasurement.NotMeasured(card), null).Value;
        double paper = PaperLevel.Measure(photo.Grey, calibration, card)!.Value, blur = CardDetector.Detect(photo, card).Value.BlurSigmaPx;
        using Mat result = photo.Bgr.Clone();
        foreach (Strip strip in strips) Lay(result, calibration, strip, paper, blur);
        Cv2.ImEncode(".jpg", result, out byte[] jpeg, new ImageEncodingParam(ImwriteFlags.JpegQuality, 95));
        return jpeg;
    }

    private static void Lay(Mat bgr, CardCalibration calibration, Strip strip, double paper, double blur)
    {
        double length = TagDesign.StripLengthMm * strip.Size, height = TagDesign.StripHeightMm * strip.Size;
        (double sin, double cos) = Math.SinCos(strip.TurnDeg * Math.PI / 180);
        PixelPoint[] corners = [.. from p in ((double, double)[])[(0, 0), (length, 0), (length, height), (0, height)] select calibration.Project(new(strip.XMm + p.Item1 * cos - p.Item2 * sin, strip.YMm + p.Item1 * sin + p.Item2 * cos), 0)];
        int margin = (int)Math.Ceiling(4 * blur) + 1;
        Rect whole = new(0, 0, bgr.Cols, bgr.Rows), box = whole.Intersect(Rect.FromLTRB((int)corners.Min(c => c.X) - margin, (int)corners.Min(c => c.Y) - margin, (int)corners.Max(c => c.X) + margin, (int)corners.Max(c => c.Y) + margin));
        using Mat cover = new(box.Height, box.Width, MatType.CV_32FC1, Scalar.All(0));
        using Mat light = new(box.Height, box.Width, MatType.CV_32FC1, Scalar.All(0));
        Random random = new(20261128 + strip.Number);
        for (int y = 0; y < box.Height; y++)
        {
            Span<float> covered = cover.RowSpan<float>(y), lit = light.RowSpan<float>(y);
            for (int x = 0; x < box.Width; x++)
            {
                for (int sub = 0; sub < 9; sub++)
                {
                    CardPoint at = calibration.ToPlane(new(box.X + x + (sub % 3 - 1) / 3.0, box.Y + y + (sub / 3 - 1) / 3.0), 0);
                    double dx = at.XMm - strip.XMm, dy = at.YMm - strip.YMm, u = (dx * cos + dy * sin) / strip.Size, v = (dy * cos - dx * sin) / strip.Size;
                    if (u < 0 || v < 0 || u > TagDesign.StripLengthMm || v > TagDesign.StripHeightMm) continue;
                    covered[x] += 1 / 9f;
                    // Ink reflects 5 %, paper 85 % (the card's own, measurands).
                    lit[x] += (float)(IsWhite(strip.Number, u, v) ? paper : paper * 0.05 / 0.85) / 9;
                }
            }
        }
        Cv2.GaussianBlur(cover, cover, new Size(0, 0), Math.Max(0.5, blur));
        Cv2.GaussianBlur(light, light, new Size(0, 0), Math.Max(0.5, blur));
        for (int y = 0; y < box.Height; y++)
        {
            Span<Vec3b> row = bgr.RowSpan<Vec3b>(box.Y + y)[box.X..];
            ReadOnlySpan<float> covered = cover.RowSpan<float>(y), lit = light.RowSpan<float>(y);
            for (int x = 0; x < box.Width; x++)
            {
                if (covered[x] < 1e-3) continue;
                // Shot noise of some 8000 electrons at full scale, as rendered photographs have.
                double noise = Math.Sqrt(Math.Max(1e-4, lit[x]) / 8000) * Gauss(random);
                double open = 1 - covered[x], added = lit[x] + noise * covered[x];
                row[x] = new(Mixed(row[x].Item0, open, added), Mixed(row[x].Item1, open, added), Mixed(row[x].Item2, open, added));
            }
        }
    }

    /// <summary>A tone of which a share of the light stays and to which light is added.</summary>
    private static byte Mixed(byte tone, double stays, double added) => (byte)Math.Round(255 * LinearLight.Encode(Math.Clamp(stays * LinearLight.OfTone[tone] + added, 0, 1)));

    private static bool IsWhite(int number, double u, double v)
    {
        int side = TagDesign.Dictionary.BitsPerSide + 2;
        double bit = TagDesign.MarkerMm / side;
        double column = Math.Floor((u - TagDesign.QuietMm) / bit), row = Math.Floor((v - TagDesign.QuietMm) / bit);
        return column < 0 || row < 0 || column >= side || row >= side || TagDesign.Dictionary.Cells(number)[(int)(row * side + column)];
    }

    private static double Gauss(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
