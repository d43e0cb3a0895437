namespace EdgeLens.Geometry.Fitting;

/// <summary>A variance beyond the stated uncertainties, so that the residuals are as large as they should be.</summary>
/// <remarks>Mandel, Paule, Anal. Chem. 42 (1970) 1194-1197; for regression DerSimonian, Kacker, Contemp. Clin. Trials 28 (2007) 105-114.</remarks>
public static class MandelPaule
{
    /// <summary>Solves chiSquare(variance) = degreesOfFreedom.</summary>
    /// <param name="chiSquare">Weighted squares of the residuals with this variance added; falls as the variance grows.</param>
    /// <param name="degreesOfFreedom">At least 0.</param>
    /// <param name="scale">A variance that is certainly of no smaller order than the solution; above 0.</param>
    /// <returns>At least 0; 0 when the stated uncertainties explain the residuals already, or no degree of freedom is left.</returns>
    public static double Variance(Func<double, double> chiSquare, int degreesOfFreedom, double scale)
    {
        ArgumentNullException.ThrowIfNull(chiSquare);
        if (degreesOfFreedom < 1 || !(scale > 0) || chiSquare(0) <= degreesOfFreedom) return 0;
        double low = 0, high = scale;
        for (int i = 0; i < 60 && chiSquare(high) > degreesOfFreedom; i++) (low, high) = (high, 4 * high);
        // Until the bracket is a millionth of the solution: far below what so few points know of it.
        for (int i = 0; i < 200 && high - low > 1e-6 * high; i++)
        {
            double middle = 0.5 * (low + high);
            if (chiSquare(middle) > degreesOfFreedom) low = middle;
            else high = middle;
        }
        return 0.5 * (low + high);
    }
}
