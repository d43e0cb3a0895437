using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;

namespace EdgeLens.Measuring.ToeView;

/// <summary>A place where the toe's cutting edge may lie.</summary>
/// <param name="Middle">Pixels.</param>
/// <param name="Along">Unit direction of the face line, pointing right.</param>
/// <param name="Score">How plainly a sharp edge of the right form is seen, in standard deviations.</param>
internal readonly record struct ToeEdgeCandidate(PixelPoint Middle, Vector2 Along, double Score);

/// <summary>Looks for the toe's cutting edge: a sharp, flat arc of some 0.6 mm, almost straight, its sag known from how the camera looks at it.</summary>
/// <remarks>The toe alone is in focus: heel, shank and card behind are blurred over 3 to 8 pixels, which the step filter treats as trend.</remarks>
internal static class ToeEdgeSearch
{
    private const double ReachMm = 0.48;
    private const double ChordMm = 0.64;
    private const int Blocks = 9;
    private const double TypicalHalfWidthMm = 0.42;
    private const double GreatestTurnDeg = 32;
    private const double TurnStepDeg = 2;
    private const double Clip = 12;
    private const int PerTurn = 3;

    /// <summary>The best candidates, best first.</summary>
    /// <param name="picture">With single noisy pixels taken out.</param>
    /// <param name="outlook">Where to look.</param>
    /// <param name="right">Unit direction square to the shank, pointing right.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <param name="lowestY">Row below which there is no steel, if known.</param>
    /// <param name="count">How many at most.</param>
    public static List<ToeEdgeCandidate> Find(TonePicture picture, ToeOutlook outlook, Vector2 right, Sharpening sharpening, double? lowestY, int count)
    {
        SharpStep sharp = new(1.1, sharpening, 4), slow = new(4, default, 10);
        List<ToeEdgeCandidate> found = [];
        for (double turn = -GreatestTurnDeg; turn <= GreatestTurnDeg; turn += TurnStepDeg)
        {
            (double s, double c) = Math.SinCos(turn * Math.PI / 180);
            Vector2 along = c * right + s * right.Perpendicular;
            Scan(picture, outlook, along, sharp, slow, lowestY, found);
        }
        found.Sort((a, b) => b.Score.CompareTo(a.Score));
        List<ToeEdgeCandidate> apart = [];
        foreach (ToeEdgeCandidate f in found)
        {
            if (apart.Count == count) break;
            if (apart.All(a => Math.Abs(a.Along.Cross(f.Along)) > 0.1 || new Vector2(a.Middle.X - f.Middle.X, 2 * (a.Middle.Y - f.Middle.Y)).Length > 25)) apart.Add(f);
        }
        return apart;
    }

    private static void Scan(TonePicture picture, ToeOutlook outlook, Vector2 along, SharpStep sharp, SharpStep slow, double? lowestY, List<ToeEdgeCandidate> found)
    {
        double perMm = 1 / outlook.MmPerPx;
        int reach = (int)(ReachMm * perMm), block = Math.Max(3, (int)(ChordMm * perMm / Blocks)), chord = block * Blocks;
        int halfWidth = reach + chord / 2, halfHeight = reach + (int)(0.08 * perMm) + slow.HalfWidth, width = 2 * halfWidth + 1, height = 2 * halfHeight + 1;
        Vector2 down = along.Perpendicular;
        double[] z = Evidence(picture, outlook.Expected, along, down, halfWidth, halfHeight, block, sharp, slow);
        (_, double vy) = outlook.InFrameOf(along);
        double w = TypicalHalfWidthMm * perMm;
        (int Dx, int Dy)[] places = [.. Enumerable.Range(0, Blocks).Select(b =>
        {
            double x = (b + 0.5) * block - chord / 2.0, sag = w - Math.Sqrt(w * w - Math.Min(x * x, 0.9 * w * w));
            return ((int)Math.Round(x), (int)Math.Round(-sag * vy));
        })];
        double[] scores = new double[width * height];
        for (int y = halfHeight - reach; y <= halfHeight + reach; y++)
            for (int x = halfWidth - reach; x <= halfWidth + reach; x++)
            {
                double sum = 0;
                foreach ((int dx, int dy) in places) sum += z[(y + dy) * width + x + dx];
                double py = outlook.Expected.Y + (x - halfWidth) * along.Y + (y - halfHeight) * down.Y;
                scores[y * width + x] = lowestY is { } low && py > low - 0.15 * perMm ? 0 : Math.Abs(sum) / Blocks;
            }
        for (int k = 0; k < PerTurn; k++)
        {
            int best = Array.IndexOf(scores, scores.Max());
            if (scores[best] <= 0) break;
            int bx = best % width, by = best / width;
            double dx = bx - halfWidth, dy = by - halfHeight;
            found.Add(new(new(outlook.Expected.X + dx * along.X + dy * down.X, outlook.Expected.Y + dx * along.Y + dy * down.Y), along, scores[best]));
            for (int y = Math.Max(0, by - 12); y <= Math.Min(height - 1, by + 12); y++) scores.AsSpan(y * width, width).Clear();
        }
    }

    /// <summary>Signed evidence of a sharp step at each place of a turned patch, standard deviations, clipped so that no single glint decides.</summary>
    private static double[] Evidence(TonePicture picture, PixelPoint centre, Vector2 along, Vector2 down, int halfWidth, int halfHeight, int block, SharpStep sharp, SharpStep slow)
    {
        int width = 2 * halfWidth + 1, height = 2 * halfHeight + 1, b = block / 2;
        double[] tones = new double[width * height], mean = new double[width * height], spread = new double[width * height], z = new double[width * height];
        for (int y = 0; y < height; y++)
            for (int x = 0; x < width; x++)
                tones[y * width + x] = picture.Sample(centre.X + (x - halfWidth) * along.X + (y - halfHeight) * down.X, centre.Y + (x - halfWidth) * along.Y + (y - halfHeight) * down.Y);
        for (int y = 0; y < height; y++)
            for (int x = b; x < width - b; x++)
            {
                double sum = 0, squares = 0;
                for (int i = -b; i <= b; i++)
                {
                    double v = tones[y * width + x + i];
                    (sum, squares) = (sum + v, squares + v * v);
                }
                double n = 2 * b + 1;
                mean[y * width + x] = sum / n;
                spread[y * width + x] = Math.Max(0, squares / n - sum / n * (sum / n));
            }
        for (int y = slow.HalfWidth; y < height - slow.HalfWidth; y++)
            for (int x = b; x < width - b; x++)
            {
                int at = y * width + x;
                double step = sharp.Height(mean, at, width);
                // A step of less than two tones, or one that is part of a slow rise, is no edge in focus.
                if (Math.Abs(step) < 2 || Math.Abs(step) < 0.4 * Math.Abs(slow.Height(mean, at, width))) continue;
                double variance = 0;
                for (int i = -4; i <= 4; i++) variance += spread[at + i * width] / 9;
                z[at] = Math.Clamp(step * Math.Sqrt((2 * b + 1) * sharp.Gain / Math.Max(1, variance)), -Clip, Clip);
            }
        return z;
    }
}
