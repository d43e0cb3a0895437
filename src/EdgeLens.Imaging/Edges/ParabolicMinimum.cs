namespace EdgeLens.Imaging.Edges;

/// <summary>
/// Minimum of a smooth function of one positive variable that is dear to compute: even steps in the logarithm find its basin, parabolas through the
/// three best points close in, and a last parabola on a fixed base gives place and curvature.
/// </summary>
internal static class ParabolicMinimum
{
    // Six points over a decade lie half a unit of the logarithm apart: closer than the blur's likelihood is wide.
    private const int Grid = 6;
    private const int Refinements = 5;

    // Base of the last parabola, in the logarithm: wide enough that rounding of the function does not count, narrow enough to be a parabola.
    private const double Base = 0.08;

    // Points closer than this in the logarithm tell nothing new.
    private const double Closest = 0.02;

    /// <summary>Place of the minimum and second derivative there (0 when the minimum lies on the rim).</summary>
    public static (double At, double Curvature) Search(Func<double, double> f, double least, double greatest)
    {
        double low = Math.Log(least), high = Math.Log(greatest), step = (high - low) / (Grid - 1);
        SortedList<double, double> known = [];
        for (int i = 0; i < Grid; i++) Evaluate(low + i * step);
        for (int i = 0; i < Refinements; i++)
        {
            int best = Best();
            if (best == 0 || best == known.Count - 1)
            {
                // Lowest on the rim: the minimum may lie between it and its neighbour.
                double rim = known.Keys[best], next = known.Keys[best == 0 ? 1 : best - 1];
                if (Math.Abs(rim - next) < 2 * Closest) break;
                Evaluate((rim + next) / 2);
                continue;
            }
            double v = Vertex(known.Keys[best - 1], known.Keys[best], known.Keys[best + 1]);
            if (known.Keys.Any(k => Math.Abs(k - v) < Closest)) break;
            Evaluate(v);
        }
        double at = known.Keys[Best()];
        if (at <= low || at >= high) return (Math.Exp(at), 0);
        double left = f(Math.Exp(at - Base)), right = f(Math.Exp(at + Base)), bend = left - 2 * known[at] + right;
        if (!(bend > 0)) return (Math.Exp(at), 0);
        double shift = Math.Clamp(0.5 * (left - right) / bend, -1, 1) * Base, x = Math.Exp(at + shift);
        return (x, bend / (Base * Base * x * x));

        void Evaluate(double logarithm) => known[logarithm] = f(Math.Exp(logarithm));

        int Best() => known.IndexOfValue(known.Values.Min());

        double Vertex(double a, double m, double b)
        {
            double fa = known[a], fm = known[m], fb = known[b];
            double p = (m - a) * (m - a) * (fm - fb) - (m - b) * (m - b) * (fm - fa), q = (m - a) * (fm - fb) - (m - b) * (fm - fa);
            return Math.Abs(q) < 1e-300 ? m : Math.Clamp(m - 0.5 * p / q, a, b);
        }
    }
}
