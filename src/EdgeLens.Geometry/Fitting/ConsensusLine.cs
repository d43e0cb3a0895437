namespace EdgeLens.Geometry.Fitting;

/// <summary>The straight line that most points agree on, y = Intercept + Slope x, whatever the others do.</summary>
/// <param name="Intercept">At x = 0.</param>
/// <param name="Slope">dy/dx.</param>
/// <param name="Inliers">Indices of the points within the tolerance, in order.</param>
/// <param name="ResidualSd">Of the inliers about the line.</param>
/// <remarks>
/// Consensus of point pairs (Fischler, Bolles, Comm. ACM 24 (1981) 381-395) over an even lattice of pairs instead of random ones, so that the
/// same points always give the same line; then least squares over the inliers, repeated.
/// </remarks>
public sealed record ConsensusLine(double Intercept, double Slope, int[] Inliers, double ResidualSd)
{
    // 40 x 40 pairs: with half the points good, one pair in four is; hundreds of good pairs are tried.
    private const int Lattice = 40;
    private const int Repeats = 4;

    /// <summary>The line at x.</summary>
    public double At(double x) => Intercept + Slope * x;

    /// <summary>Finds the line.</summary>
    /// <param name="x">Abscissas; points whose ordinate is not a number are passed over.</param>
    /// <param name="y">Ordinates.</param>
    /// <param name="tolerance">How far a point may lie off the line, same unit as y.</param>
    /// <param name="leastSpan">Least distance of the two points of a pair: nearer ones say little about the slope.</param>
    /// <param name="greatestSlope">Steeper lines are not tried.</param>
    /// <returns>The line, or null when fewer than 8 points agree.</returns>
    public static ConsensusLine? Through(ReadOnlySpan<double> x, ReadOnlySpan<double> y, double tolerance, double leastSpan, double greatestSlope = double.PositiveInfinity)
    {
        if (x.Length != y.Length) throw new ArgumentException("Abscissas and ordinates must be as many.", nameof(y));
        List<int> valid = [];
        for (int i = 0; i < y.Length; i++) if (double.IsFinite(y[i])) valid.Add(i);
        if (valid.Count < 8) return null;
        (int count, double a, double b) best = (0, 0, 0);
        double stride = Math.Max(1, valid.Count / (double)Lattice);
        for (double p = 0; p < valid.Count; p += stride)
            for (double q = p + stride; q < valid.Count; q += stride)
            {
                int i = valid[(int)p], j = valid[(int)q];
                if (Math.Abs(x[j] - x[i]) < leastSpan) continue;
                double slope = (y[j] - y[i]) / (x[j] - x[i]), intercept = y[i] - slope * x[i];
                if (Math.Abs(slope) > greatestSlope) continue;
                int count = 0;
                foreach (int k in valid) if (Math.Abs(y[k] - intercept - slope * x[k]) < tolerance) count++;
                if (count > best.count) best = (count, intercept, slope);
            }
        return best.count < 8 ? null : Settle(x, y, valid, best.a, best.b, tolerance);
    }

    private static ConsensusLine? Settle(ReadOnlySpan<double> x, ReadOnlySpan<double> y, List<int> valid, double intercept, double slope, double tolerance)
    {
        List<int> inliers = [];
        double sd = 0;
        for (int r = 0; r < Repeats; r++)
        {
            inliers.Clear();
            foreach (int k in valid) if (Math.Abs(y[k] - intercept - slope * x[k]) < tolerance) inliers.Add(k);
            double[] px = new double[inliers.Count], py = new double[inliers.Count];
            for (int i = 0; i < px.Length; i++) (px[i], py[i]) = (x[inliers[i]], y[inliers[i]]);
            if (!StraightLine.Fit(px, py).TryGet(out StraightLine? line, out _)) return null;
            (intercept, slope, sd) = (line.Intercept, line.Slope, line.ResidualSd);
        }
        return new(intercept, slope, [.. inliers], sd);
    }
}
