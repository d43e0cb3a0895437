namespace EdgeLens.Imaging.Lines;

/// <summary>How much of what tells a bend from a straight line also tells it from a rounding or an even bow: the rest looks like one of those.</summary>
public static class BendContrast
{
    private const double RoundPlaceStepPx = 0.5, RoundTurnStep = 0.05;

    /// <summary>Share of the likelihood ratio against the best straight line that is left against the best round one, 0 to 1.</summary>
    /// <param name="lengthPx">Of the stretch.</param>
    /// <param name="placePx">Of the bend, from its start.</param>
    /// <param name="turn">Of the bend, as a slope.</param>
    /// <param name="roundestPx">Greatest radius of a rounding.</param>
    /// <remarks>
    /// Every pixel along the edge has the same noise, so that likelihood ratios go as squares of distances between edges, each less its own best straight line. A circle of radius R that touches the
    /// line at a place p turns by p / R or more, to 45°.
    /// </remarks>
    public static double Round(double lengthPx, double placePx, double turn, double roundestPx)
    {
        int n = (int)lengthPx;
        double[] bend = WithoutLine(n, t => turn * Math.Max(0, placePx - t)), bow = WithoutLine(n, t => (n - t) * (n - t));
        double own = Dot(bend, bend), along = Dot(bow, bend), least = own - along * along / Dot(bow, bow);
        for (double place = 2; place < roundestPx; place += RoundPlaceStepPx)
        {
            double[] circle = WithoutLine(n, t => Math.Pow(Math.Max(0, place - t), 2) / (2 * place));
            for (double slope = place / roundestPx; slope <= 1; slope += RoundTurnStep) least = Math.Min(least, own - 2 * slope * Dot(circle, bend) + slope * slope * Dot(circle, circle));
        }
        return least / own;
    }

    /// <summary>Sum over the pixels of a stretch of a bend's squared distance from its best straight line, for a turn of 1.</summary>
    /// <param name="lengthPx">Of the stretch.</param>
    /// <param name="placePx">Of the bend.</param>
    public static double BendSquares(double lengthPx, double placePx) => Squares(WithoutLine((int)lengthPx, t => Math.Max(0, placePx - t)));

    /// <summary>The same of a circle that touches the line at a place, pixels squared.</summary>
    /// <param name="lengthPx">Of the stretch.</param>
    /// <param name="placePx">Where it touches.</param>
    /// <param name="radiusPx">Its radius.</param>
    public static double CircleSquares(double lengthPx, double placePx, double radiusPx) => Squares(WithoutLine((int)lengthPx, t => Math.Pow(Math.Max(0, placePx - t), 2) / (2 * radiusPx)));

    private static double Squares(double[] v) => Dot(v, v);

    private static double[] WithoutLine(int n, Func<double, double> form)
    {
        double[] v = [.. Enumerable.Range(0, n).Select(t => form(t))];
        double middle = (n - 1) / 2.0, mean = v.Average(), squares = n * ((double)n * n - 1) / 12, slope = 0;
        for (int t = 0; t < n; t++) slope += (t - middle) * v[t] / squares;
        for (int t = 0; t < n; t++) v[t] -= mean + slope * (t - middle);
        return v;
    }

    private static double Dot(double[] a, double[] b)
    {
        double sum = 0;
        for (int i = 0; i < a.Length; i++) sum += a[i] * b[i];
        return sum;
    }
}
