namespace EdgeLens.Assessment.Measurements;

/// <summary>
/// How the errors of outline points hang together. A point's error along its normal is the sum of two independent parts: one that changes over a blur
/// width (its standard deviation stands in the point), and one that the light makes and that changes slowly along the edge.
/// Both have the autocorrelation exp(-½ (d / length)²) over the arc d between two points.
/// </summary>
/// <param name="CorrelationMm">
/// Length of the fast part. Profiles that overlap share their pixels' noise: noise smoothed by a Gaussian of sigma b has the length √2 b, and a photograph's
/// blur is 10 to 30 µm. Too small: uncertainties come out too small, with the root of it.
/// </param>
/// <param name="SystematicSdUm">
/// Standard deviation of the slow part: a bright line on the edge that the edge model takes for steel shifts the outline. Outlines of rendered photographs,
/// averaged over 0.3 mm, leave their truth by 0.8 µm (root mean square over 21, from 0.1 to 1.5). Too small: uncertainties of smooth edges are too small.
/// </param>
/// <param name="SystematicCorrelationMm">Length of the slow part: lights and roundings change over a millimetre, and the two sides of a blade are independent.</param>
public sealed record OutlineNoise(double CorrelationMm = 0.03, double SystematicSdUm = 1.0, double SystematicCorrelationMm = 1.0)
{
    /// <summary>Standard uncertainty of a figure that depends linearly on the places of outline points: u² = Σ w_i w_j cov_ij (JCGM 100:2008 equation (13)).</summary>
    /// <param name="points">The points that take part.</param>
    /// <param name="sensitivities">Change of the figure per mm that the point moves along its inward normal.</param>
    /// <returns>In the figure's unit.</returns>
    /// <remarks>Cost: the square of the number of points.</remarks>
    public double Propagate(ReadOnlySpan<OutlinePoint> points, ReadOnlySpan<double> sensitivities)
    {
        if (points.Length != sensitivities.Length) throw new ArgumentException("Points and sensitivities must be as many.", nameof(sensitivities));
        double slow = SystematicSdUm / 1000, variance = 0;
        for (int i = 0; i < points.Length; i++)
        {
            double si = points[i].StandardUncertaintyUm / 1000;
            variance += sensitivities[i] * sensitivities[i] * (si * si + slow * slow);
            for (int j = 0; j < i; j++)
            {
                double d = points[i].ArcMm - points[j].ArcMm, sj = points[j].StandardUncertaintyUm / 1000;
                variance += 2 * sensitivities[i] * sensitivities[j] * (si * sj * Correlation(d, CorrelationMm) + slow * slow * Correlation(d, SystematicCorrelationMm));
            }
        }
        return Math.Sqrt(Math.Max(0, variance));
    }

    /// <summary>How alike the fast errors of two places are, 0 to 1.</summary>
    /// <param name="d">Arc between them, mm.</param>
    internal double Fast(double d) => Correlation(d, CorrelationMm);

    /// <summary>Covariance of the slow errors of two places, mm².</summary>
    /// <param name="d">Arc between them, mm.</param>
    internal double Slow(double d) => SystematicSdUm * SystematicSdUm * 1e-6 * Correlation(d, SystematicCorrelationMm);

    private static double Correlation(double d, double length)
    {
        double q = d / length;
        return q * q > 50 ? 0 : Math.Exp(-0.5 * q * q);
    }
}
