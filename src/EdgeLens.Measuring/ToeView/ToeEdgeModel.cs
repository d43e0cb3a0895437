using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.ToeView;

/// <summary>Fits the picture of the cutting edge's U to a followed edge: which way the face line lies, where its corners are.</summary>
/// <remarks>
/// The U lies in the face (<see cref="ToePlan"/>). A place s behind the apex appears moved by s (vx, -vy)
/// in the picture (x right, y down) against the apex. Chord of two corners at the same s: the face line. A tangent at the middle of what can be
/// seen is not the face line: where the camera stands to one side, one visible corner lies at the toe and the other at the heel.
/// </remarks>
internal static class ToeEdgeModel
{
    // Prior of the view: the hand's alignment, and what 4° of roll make of a view from 6° aside.
    private static readonly double ViewSigma = Quadrature.Sum(AngleLimits.AlignmentSigmaRad, 0.007);

    // One place of the path is good to 0.6 px; five neighbours share the same columns.
    private const double PlaceSigmaPx = 0.6;
    private const double Correlation = 5;
    private const double SoftLimit = 6;

    /// <summary>The U as seen, from the left side round the apex to the right; millimetres right and up from the apex.</summary>
    /// <param name="plan">Its form in the face.</param>
    /// <param name="halfWidth">Of the toe, mm.</param>
    /// <param name="taper">Slope of the sides on top of the plan's.</param>
    /// <param name="vx">View direction, right.</param>
    /// <param name="vy">View direction, out of the face.</param>
    /// <param name="sides">False: the toe only.</param>
    public static (double X, double Y)[] Curve(ToePlan plan, double halfWidth, double taper, double vx, double vy, bool sides = true) =>
        [.. plan.Places(halfWidth / plan.HalfWidthMm.Value, taper, sides).Select(p => (p.X + p.S * vx, p.S * vy))];

    /// <summary>Fits one candidate's path.</summary>
    /// <param name="candidate">Its frame.</param>
    /// <param name="path">The followed edge.</param>
    /// <param name="outlook">How the camera looks.</param>
    /// <param name="plan">Form and size of the U in the face.</param>
    /// <param name="leftSide">Where the left lateral surface ends for the eye, if that is known; else the path's end is taken, which may overshoot.</param>
    /// <param name="rightSide">The same on the right.</param>
    public static ToeEdge? Fit(ToeEdgeCandidate candidate, List<PathPoint> path, ToeOutlook outlook, ToePlan plan, SeenSide? leftSide = null, SeenSide? rightSide = null)
    {
        double mm = outlook.MmPerPx;
        (Measured half, Measured taper) = (plan.HalfWidthMm, plan.Taper);
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
            DampedLeastSquares fit = DampedLeastSquares.Solve(Residuals, x.Length + 6, [0, near, start, half.Value, vx, vy, taper.Value], [1e-4, 1e-4, 1e-3, 1e-3, 1e-3, 1e-3, 1e-3],
                [-0.3, -1, -0.6, 0.15, -0.5, -0.5, -0.1], [0.3, 1, 0.6, 0.9, 0.5, 0.5, 0.15], 25);
            if (best is null || fit.SumOfSquares < best.SumOfSquares) best = fit;
        }
        return best is null ? null : Result(candidate, points, x, y, best, vx, vy, mm, plan);

        double EndSigma(SeenSide? seen) => seen is { Corner: not null } s ? Math.Max(3 * mm, s.Light.EndSigmaMm(half.Value)) : 3 * mm;

        double? End((double X, double Y)[] curve, ReadOnlySpan<double> p, int side, SeenSide? seen) =>
            seen is { Corner: not null } s ? Ending(plan.At(side, s.Light.AzimuthAt(0)), p[3] / half.Value, p[4]) : Fold(curve, side);

        static double Ending((double X, double S) place, double size, double viewX) => size * (place.X + place.S * viewX);

        double? Along(PixelPoint? corner) =>
            corner is { } q ? ((q.X - candidate.Middle.X) * candidate.Along.X + (q.Y - candidate.Middle.Y) * candidate.Along.Y) * mm : null;

        void Residuals(ReadOnlySpan<double> p, Span<double> r)
        {
            (double X, double Y)[] curve = Curve(plan, p[3], p[6], p[4], p[5]);
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
            r[^4] = (p[3] - half.Value) / half.StandardUncertainty;
            r[^3] = (p[4] - vx) / ViewSigma;
            r[^2] = (p[5] - vy) / ViewSigma;
            r[^1] = (p[6] - taper.Value) / taper.StandardUncertainty;
        }
    }

    private static ToeEdge Result(ToeEdgeCandidate candidate, PathPoint[] points, double[] x, double[] y, DampedLeastSquares fit, double vx, double vy, double mm, ToePlan plan)
    {
        double[] p = fit.Parameters;
        (double X, double Y)[] curve = Curve(plan, p[3], p[6], p[4], p[5]);
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
        double strange = Square((p[3] - plan.HalfWidthMm.Value) / plan.HalfWidthMm.StandardUncertainty) + Square((p[4] - vx) / ViewSigma) + Square((p[5] - vy) / ViewSigma) + Square((p[6] - plan.Taper.Value) / plan.Taper.StandardUncertainty);
        double seen = contrast * Math.Exp(-strange / 16) * close / x.Length;
        // The frame turns anticlockwise by p[0]; the picture's y points down.
        Vector2 up = -1 * candidate.Along.Perpendicular, along = c * candidate.Along + s * up;
        PixelPoint middle = new(candidate.Middle.X + (p[2] * candidate.Along.X + p[1] * up.X) / mm, candidate.Middle.Y + (p[2] * candidate.Along.Y + p[1] * up.Y) / mm);
        return new(middle, along, fit.UnitSd(0), Math.Min(1, fit.UnitSd(2)), new Measured(p[3], Math.Min(1, fit.UnitSd(3))), p[4], p[5], p[6], mm, seen) { Plan = plan };
    }

    /// <summary>Extreme of the curve to a side if it lies on the toe, so that the U folds back behind it; else null.</summary>
    internal static double? Fold((double X, double Y)[] curve, int side)
    {
        int best = 0;
        for (int i = 1; i < curve.Length; i++) if (side * curve[i].X > side * curve[best].X) best = i;
        return best >= ToePlan.SidePieces && best <= curve.Length - 1 - ToePlan.SidePieces ? curve[best].X : null;
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
