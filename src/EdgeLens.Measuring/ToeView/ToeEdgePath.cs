using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Lines;

namespace EdgeLens.Measuring.ToeView;

/// <summary>One place of a followed edge, in the frame of its candidate: pixels along the supposed face line and down from it.</summary>
/// <param name="Along">To the right.</param>
/// <param name="Down">Into the steel.</param>
/// <param name="StepTone">Height of the sharp step there, tones.</param>
internal readonly record struct PathPoint(double Along, double Down, double StepTone);

/// <summary>Follows a sharp edge from its middle to both sides, until it is lost.</summary>
internal static class ToeEdgePath
{
    private const double ReachMm = 0.8;
    private const double HalfHeightMm = 0.35;
    private const int HalfMean = 3;

    // An edge ends where its step falls below 3.5 tones, or below a fifth of what it was (8 tones are always
    // enough: a glint on the toe's middle is ten times as bright as its sides), for more than ten columns.
    private const double LeastTone = 3.5;
    private const double LeastShare = 0.2;
    private const double EnoughTone = 8;
    private const int GreatestGap = 10;

    /// <summary>
    /// How far a path runs on beyond the edge's true end, pixels: each place is a mean over 2 n + 1 columns (n = 3), which falls below the least share of its usual
    /// step only when so few columns hold the edge: n + 1/2 - share (2 n + 1).
    /// </summary>
    public const double OvershootPx = HalfMean + 0.5 - LeastShare * (2 * HalfMean + 1);

    // The edge's slope is taken from its last sixteen places.
    private const int SlopeOver = 16;

    /// <summary>Follows.</summary>
    /// <param name="picture">The photograph.</param>
    /// <param name="start">Where and which way.</param>
    /// <param name="sharp">The step sought.</param>
    /// <param name="mmPerPx">At the toe.</param>
    public static List<PathPoint> Follow(TonePicture picture, ToeEdgeCandidate start, SharpStep sharp, double mmPerPx)
    {
        int reach = (int)(ReachMm / mmPerPx), half = (int)(HalfHeightMm / mmPerPx) + sharp.HalfWidth + 2;
        Patch patch = new(picture, start, reach, half);
        int first = Enumerable.Range(-6, 13).MaxBy(row => Enumerable.Range(-3, 7).Sum(column => patch.Step(sharp, column, row, 0)));
        List<PathPoint> path = Side(patch, sharp, first, -1, reach, half);
        path.Reverse();
        path.AddRange(Side(patch, sharp, first, 1, reach, half));
        return path;
    }

    private static List<PathPoint> Side(Patch patch, SharpStep sharp, double start, int way, int reach, int half)
    {
        List<PathPoint> path = [];
        double y = start, slope = 0;
        int missed = 0, limit = half - sharp.HalfWidth - 4;
        for (int x = way; Math.Abs(x) < reach - HalfMean; x += way)
        {
            double predicted = y + slope * way;
            int low = (int)Math.Round(predicted - 2), high = (int)Math.Round(predicted + 2);
            if (low < -limit || high > limit) break;
            int row = low;
            double best = -1;
            for (int j = low; j <= high; j++) if (patch.Step(sharp, x, j, slope) is var s && s > best) (best, row) = (s, j);
            double usual = path.Count == 0 ? 0 : Median(path);
            if (best <= Math.Clamp(LeastShare * usual, LeastTone, EnoughTone))
            {
                y = predicted;
                if (++missed > GreatestGap) break;
                continue;
            }
            double before = patch.Step(sharp, x, row - 1, slope), after = patch.Step(sharp, x, row + 1, slope), bend = before - 2 * best + after;
            double at = row + (bend < 0 ? Math.Clamp(0.5 * (before - after) / bend, -0.5, 0.5) : 0);
            path.Add(new(x, at, best));
            missed = 0;
            y = Math.Abs(at - predicted) < 1 ? at : predicted + Math.Sign(at - predicted);
            if (path.Count >= 12) slope = Slope(path);
        }
        return path;
    }

    private static double Median(List<PathPoint> path)
    {
        double[] steps = [.. path.Select(p => p.StepTone)];
        Array.Sort(steps);
        return steps[steps.Length / 2];
    }

    private static double Slope(List<PathPoint> path)
    {
        PathPoint[] last = [.. path.TakeLast(SlopeOver)];
        return StraightLine.Fit([.. last.Select(p => p.Along)], [.. last.Select(p => p.Down)]).TryGet(out StraightLine? line, out _) ? Math.Clamp(line.Slope, -1.5, 1.5) : 0;
    }

    /// <summary>Tones about a candidate, rows square to the face line.</summary>
    private sealed class Patch
    {
        private readonly double[] _tones;
        private readonly int _reach, _half, _height;

        public Patch(TonePicture picture, ToeEdgeCandidate c, int reach, int half)
        {
            (_reach, _half, _height) = (reach, half, 2 * half + 1);
            _tones = new double[(2 * reach + 1) * _height];
            Vector2 down = c.Along.Perpendicular;
            for (int x = -reach; x <= reach; x++)
                for (int y = -half; y <= half; y++)
                    _tones[(x + reach) * _height + y + half] = picture.Sample(c.Middle.X + x * c.Along.X + y * down.X, c.Middle.Y + x * c.Along.Y + y * down.Y);
        }

        /// <summary>Height of the step, sign left out, averaged over columns along a slope.</summary>
        public double Step(SharpStep sharp, int x, int y, double slope)
        {
            int n = 2 * sharp.HalfWidth + 1;
            Span<double> mean = stackalloc double[n];
            mean.Clear();
            for (int k = -HalfMean; k <= HalfMean; k++)
            {
                double shift = slope * k;
                int whole = (int)Math.Floor(shift);
                double part = shift - whole;
                int column = Math.Clamp(x + k + _reach, 0, 2 * _reach) * _height;
                for (int i = 0; i < n; i++)
                {
                    int row = Math.Clamp(y + i - sharp.HalfWidth + whole + _half, 0, _height - 2);
                    mean[i] += ((1 - part) * _tones[column + row] + part * _tones[column + row + 1]) / (2 * HalfMean + 1);
                }
            }
            return Math.Abs(sharp.Height(mean, sharp.HalfWidth));
        }
    }
}
