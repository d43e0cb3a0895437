namespace EdgeLens.Geometry.Figures;

/// <summary>Combination of independent standard uncertainties, JCGM 100:2008 equation (10).</summary>
public static class Quadrature
{
    /// <summary>Root of the sum of squares; 0 for nothing.</summary>
    public static double Sum(params ReadOnlySpan<double> contributions)
    {
        double squares = 0;
        foreach (double c in contributions) squares += c * c;
        return Math.Sqrt(squares);
    }

    /// <summary>Standard uncertainty of a quantity known only to lie within ± <paramref name="halfWidth"/> (rectangular), JCGM 100:2008, 4.3.7.</summary>
    public static double FromLimits(double halfWidth) => Math.Abs(halfWidth) / Math.Sqrt(3);
}
