namespace EdgeLens.Imaging.Edges;

/// <summary>Minimum of a smooth function of one positive variable: even steps in the logarithm to find its basin, golden sections, then a parabola for the curvature.</summary>
internal static class ParabolicMinimum
{
    private const int Grid = 9;
    private const int Sections = 9;

    /// <summary>Place of the minimum and second derivative there (0 when the minimum lies on the rim).</summary>
    public static (double At, double Curvature) Search(Func<double, double> f, double least, double greatest)
    {
        double ratio = Math.Pow(greatest / least, 1.0 / (Grid - 1));
        double[] values = [.. Enumerable.Range(0, Grid).Select(i => f(least * Math.Pow(ratio, i)))];
        int k = Array.IndexOf(values, values.Min());
        double a = least * Math.Pow(ratio, Math.Max(0, k - 1)), b = least * Math.Pow(ratio, Math.Min(Grid - 1, k + 1));
        const double golden = 0.6180339887498949;
        double c = b - golden * (b - a), d = a + golden * (b - a), fc = f(c), fd = f(d);
        for (int i = 0; i < Sections; i++)
        {
            if (fc < fd)
            {
                (b, d, fd) = (d, c, fc);
                c = b - golden * (b - a);
                fc = f(c);
            }
            else
            {
                (a, c, fc) = (c, d, fd);
                d = a + golden * (b - a);
                fd = f(d);
            }
        }
        double at = (a + b) / 2, h = 0.06 * at;
        double curvature = (f(at - h) - 2 * f(at) + f(at + h)) / (h * h);
        return (at, Math.Max(0, curvature));
    }
}
