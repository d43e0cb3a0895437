using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Measuring.ToeView;

/// <summary>Fits the picture of the cutting edge's U to a followed edge: which way the face line lies, where its corners are.</summary>
/// <remarks>
/// The U lies in the face: half a circle of the toe's half width, then sides with a slight taper. A place s behind the apex appears moved by s (vx, -vy)
/// in the picture (x right, y down) against the apex. Chord of two corners at the same s: the face line. A tangent at the middle of what can be
/// seen is not the face line: where the camera stands to one side, one visible corner lies at the toe and the other at the heel.
/// </remarks>
internal static class ToeEdgeModel
{
    // Priors: half widths of curettes' toes, 0.3 to 0.55 mm (mean blade width 0.86 mm: J Indian Soc Periodontol 2022;26:213-218); alignment of blade
    // and card, ± 1.5° rectangular, and 4° of roll of the view direction's error: 0.02; taper of the sides from nothing to 2°.
    private const double HalfWidthMm = 0.41, HalfWidthSigmaMm = 0.05;
    private const double ViewSigma = 0.02;
    private const double Taper = 0.016, TaperSigma = 0.012;

    // One place of the path is good to 0.6 px; five neighbours share the same columns.
    private const double PlaceSigmaPx = 0.6;
    private const double Correlation = 5;
    private const double SoftLimit = 6;
    private const int ArcPieces = 16, SidePieces = 5;
    private const double BladeMm = 4.5;

    /// <summary>The U as seen, from the left side round the apex to the right; millimetres right and up from the apex.</summary>
    /// <param name="halfWidth">Of the toe, mm.</param>
    /// <param name="taper">Slope of the sides.</param>
    /// <param name="vx">View direction, right.</param>
    /// <param name="vy">View direction, out of the face.</param>
    /// <param name="length">How far back the sides are drawn, mm.</param>
    public static (double X, double Y)[] Curve(double halfWidth, double taper, double vx, double vy, double length = BladeMm)
    {
        List<(double X, double Y)> right = [];
        for (int i = 0; i <= ArcPieces; i++)
        {
            (double sin, double cos) = Math.SinCos(Math.PI / 2 * i / ArcPieces);
            right.Add((halfWidth * sin, halfWidth * (1 - cos)));
        }
        if (length > halfWidth)
            for (int i = 1; i <= SidePieces; i++)
            {
                double s = halfWidth + (length - halfWidth) * i / SidePieces;
                right.Add((halfWidth + taper * (s - halfWidth), s));
            }
        IEnumerable<(double, double)> all = right.Skip(1).Reverse().Select(p => (-p.X, p.Y)).Concat(right);
        return [.. all.Select(((double X, double S) p) => (p.X + p.S * vx, p.S * vy))];
    }

    /// <summary>Fits one candidate's path.</summary>
    /// <param name="candidate">Its frame.</param>
    /// <param name="path">The followed edge.</param>
    /// <param name="outlook">How the camera looks.</param>
    /// <param name="leftSide">Where the left lateral surface ends for the eye, if that is known; else the path's end is taken, which may overshoot.</param>
    /// <param name="rightSide">The same on the right.</param>
    public static ToeEdge? Fit(ToeEdgeCandidate candidate, List<PathPoint> path, ToeOutlook outlook, SeenSide? leftSide = null, SeenSide? rightSide = null)
    {
        double mm = outlook.MmPerPx;
        (double vx, double vy) = outlook.InFrameOf(candidate.Along);
        double? leftMm = Along(leftSide?.Corner), rightMm = Along(rightSide?.Corner);
        PathPoint[] points = [.. path.Where((p, i) => i % 2 == 0 && !(p.Along * mm < leftMm - 0.02) && !(p.Along * mm > rightMm + 0.02))];
        if (points.Length < 12) return null;
        if (path.Count * mm < 0.45) return null;
        double[] x = [.. points.Select(p => p.Along * mm)], y = [.. points.Select(p => -p.Down * mm)];
        double leftEnd = x.Min(), rightEnd = x.Max();
        double overshoot = ToeEdgePath.OvershootPx * mm;
        DampedLeastSquares? best = null;
        for (double start = Math.Max(-0.3, leftEnd + 0.3); start <= Math.Min(0.3, rightEnd - 0.3) + 1e-9; start += 0.15)
        {
            double near = Median([.. Enumerable.Range(0, x.Length).Where(i => Math.Abs(x[i] - start) < 0.3).Select(i => y[i])]);
            DampedLeastSquares fit = DampedLeastSquares.Solve(Residuals, x.Length + 6, [0, near, start, HalfWidthMm, vx, vy, Taper], [1e-4, 1e-4, 1e-3, 1e-3, 1e-3, 1e-3, 1e-3],
                [-0.3, -1, -0.6, 0.15, -0.5, -0.5, -0.1], [0.3, 1, 0.6, 0.9, 0.5, 0.5, 0.15], 25);
            if (best is null || fit.SumOfSquares < best.SumOfSquares) best = fit;
        }
        return best is null ? null : Result(candidate, points, x, y, best, vx, vy, mm);

        double EndSigma(SeenSide? seen) => seen is { Corner: not null } s ? Math.Max(3 * mm, s.Light.EndSigmaMm(HalfWidthMm)) : 3 * mm;

        double? End((double X, double Y)[] curve, ReadOnlySpan<double> p, int side, SeenSide? seen) =>
            seen is { Corner: not null } s ? p[3] * (side * Math.Cos(s.Light.AzimuthAt(0)) + (1 - Math.Sin(s.Light.AzimuthAt(0))) * p[4]) : Fold(curve, side);

        double? Along(PixelPoint? corner) =>
            corner is { } q ? ((q.X - candidate.Middle.X) * candidate.Along.X + (q.Y - candidate.Middle.Y) * candidate.Along.Y) * mm : null;

        void Residuals(ReadOnlySpan<double> p, Span<double> r)
        {
            (double X, double Y)[] curve = Curve(p[3], p[6], p[4], p[5]);
            (double s, double c) = Math.SinCos(p[0]);
            double left = double.MaxValue, right = double.MinValue;
            for (int i = 0; i < x.Length; i++)
            {
                double dx = x[i] - p[2], dy = y[i] - p[1], u = c * dx + s * dy, v = -s * dx + c * dy;
                (left, right) = (Math.Min(left, u), Math.Max(right, u));
                double d = Distance(curve, u, v) / mm / PlaceSigmaPx;
                r[i] = d / Math.Sqrt(1 + d * d / (SoftLimit * SoftLimit)) / Math.Sqrt(Correlation / 2);
            }
            (left, right) = (leftMm - p[2] ?? left + overshoot, rightMm - p[2] ?? right - overshoot);
            // On a side where the U folds back, the path must end where the fold is, to 3 px; a corner that is seen stands where the side ends for the eye.
            r[^6] = End(curve, p, -1, leftSide) is { } foldLeft ? Math.Clamp((left - foldLeft) / EndSigma(leftSide), -4, 4) : 0;
            r[^5] = End(curve, p, 1, rightSide) is { } foldRight ? Math.Clamp((right - foldRight) / EndSigma(rightSide), -4, 4) : 0;
            r[^4] = (p[3] - HalfWidthMm) / HalfWidthSigmaMm;
            r[^3] = (p[4] - vx) / ViewSigma;
            r[^2] = (p[5] - vy) / ViewSigma;
            r[^1] = (p[6] - Taper) / TaperSigma;
        }
    }

    private static ToeEdge Result(ToeEdgeCandidate candidate, PathPoint[] points, double[] x, double[] y, DampedLeastSquares fit, double vx, double vy, double mm)
    {
        double[] p = fit.Parameters;
        (double X, double Y)[] curve = Curve(p[3], p[6], p[4], p[5]);
        (double s, double c) = Math.SinCos(p[0]);
        int close = 0, toe = 0;
        double contrast = 0;
        for (int i = 0; i < x.Length; i++)
        {
            double dx = x[i] - p[2], dy = y[i] - p[1], u = c * dx + s * dy, v = -s * dx + c * dy;
            if (Distance(curve, u, v) / mm > 1.5) continue;
            close++;
            if (Math.Abs(u) > p[3]) continue;
            toe++;
            contrast += Math.Min(points[i].StepTone, 30);
        }
        double strange = Square((p[3] - HalfWidthMm) / HalfWidthSigmaMm) + Square((p[4] - vx) / ViewSigma) + Square((p[5] - vy) / ViewSigma) + Square((p[6] - Taper) / TaperSigma);
        double seen = contrast * Math.Exp(-strange / 16) * close / x.Length;
        // The frame turns anticlockwise by p[0]; the picture's y points down.
        Vector2 up = -1 * candidate.Along.Perpendicular, along = c * candidate.Along + s * up;
        PixelPoint middle = new(candidate.Middle.X + (p[2] * candidate.Along.X + p[1] * up.X) / mm, candidate.Middle.Y + (p[2] * candidate.Along.Y + p[1] * up.Y) / mm);
        return new(middle, along, fit.UnitSd(0), Math.Min(1, fit.UnitSd(2)), new Measured(p[3], Math.Min(1, fit.UnitSd(3))), p[4], p[5], p[6], mm, seen);
    }

    /// <summary>Extreme of the curve to a side if it lies on the toe, so that the U folds back behind it; else null.</summary>
    internal static double? Fold((double X, double Y)[] curve, int side)
    {
        int best = 0;
        for (int i = 1; i < curve.Length; i++) if (side * curve[i].X > side * curve[best].X) best = i;
        return best >= SidePieces && best <= curve.Length - 1 - SidePieces ? curve[best].X : null;
    }

    private static double Distance((double X, double Y)[] curve, double x, double y)
    {
        double best = double.MaxValue, sign = 1;
        for (int i = 0; i + 1 < curve.Length; i++)
        {
            double ax = curve[i].X, ay = curve[i].Y, dx = curve[i + 1].X - ax, dy = curve[i + 1].Y - ay;
            double t = Math.Clamp(((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy + 1e-15), 0, 1);
            double ex = x - ax - t * dx, ey = y - ay - t * dy, d = ex * ex + ey * ey;
            if (d >= best) continue;
            (best, sign) = (d, Math.Sign(ey * dx - ex * dy));
        }
        return sign * Math.Sqrt(best);
    }

    private static double Median(double[] values)
    {
        if (values.Length == 0) return 0;
        Array.Sort(values);
        return values[values.Length / 2];
    }

    private static double Square(double v) => v * v;
}
