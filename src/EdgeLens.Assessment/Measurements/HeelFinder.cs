using EdgeLens.Assessment.Instruments;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;

namespace EdgeLens.Assessment.Measurements;

/// <summary>
/// Where the blade's sides stop being the blade. Going back from the toe the blade widens or stays as wide until it meets the shank, and there it narrows to
/// the neck: the heel is the break of the width's slope. Behind the wings of a winged elevator the width falls steeply and then stays: the heel is where it
/// stops falling, the foot of the wings' backs. Both run over in a curve, so the heel is uncertain by some tenths of a millimetre; no figure hangs on it.
/// </summary>
internal static class HeelFinder
{
    /// <summary>Spacing of the widths.</summary>
    public const double StepMm = 0.04;

    /// <summary>Half window of the smoothing: takes the noise out of a slope, and is short beside a nick, which is told from the neck by what lies behind it.</summary>
    private const double SmoothHalfWindowMm = 0.1;

    /// <summary>How much narrower than the widest place ahead the neck must be: necks of the trade are 10 to 25 % narrower, an outline's error is below 0.5 %.</summary>
    private const double NeckNarrowing = 0.03;

    /// <summary>
    /// A narrowing on one side only, within this length of which the blade goes on where it was, in width and in its middle, was a nick. (A neck may widen to the
    /// shank as soon; but it narrows on both sides, or, on an area-specific curette, leans off the axis and does not come back.)
    /// </summary>
    private const double NickLengthMm = 0.75;

    /// <summary>
    /// Stretch on either side of the break that the broken line is fitted to: about the length over which a blade runs into its neck. Where the narrowing begins
    /// sharply the break lies on the heel, where it begins as a parabola up to half this stretch behind it: that is the heel's uncertainty (rectangular).
    /// </summary>
    private const double FitHalfWindowMm = 0.8;

    /// <summary>An outline reaches a millimetre or so behind the heel of a blade of 4 mm and more: the heel is in this share of it at the back. What narrows farther in front is a damaged tip.</summary>
    private const double HeelShare = 0.6;

    /// <summary>Finds the heel.</summary>
    /// <param name="z">Increasing, spacing <see cref="StepMm"/>, from the outline's back end to the toe.</param>
    /// <param name="width">Extent along x there, mm.</param>
    /// <param name="middle">x halfway between the sides there, mm.</param>
    /// <param name="noiseMm">Standard deviation of a width.</param>
    /// <param name="traits">Family.</param>
    /// <returns>
    /// z of the heel with its standard uncertainty. When the outline does not reach the neck: its back end, and a tenth of its length as a rectangular limit.
    /// </returns>
    public static Measured Find(double[] z, double[] width, double[] middle, double noiseMm, FamilyTraits traits)
    {
        double[] smooth = RobustSmoother.Smooth(z, width, SmoothHalfWindowMm, 1, noiseMm, RobustLoss.Huber);
        int widest = z.Length - 1, narrowed = -1;
        double foremost = z[0] + HeelShare * (z[^1] - z[0]);
        for (int i = z.Length - 1; i >= 0 && narrowed < 0; i--)
        {
            if (smooth[i] >= smooth[widest]) widest = i;
            else if (z[i] < foremost && smooth[i] < (1 - NeckNarrowing) * smooth[widest] && !GoesOn(i)) narrowed = i;
        }
        if (narrowed < 0) return new(z[0], Quadrature.FromLimits(0.1 * (z[^1] - z[0])));
        int reach = (int)(FitHalfWindowMm / StepMm), centre, from;
        if (traits.Family == InstrumentFamily.WingedElevator)
        {
            centre = Foot(z, smooth, narrowed);
            from = Math.Max(0, centre - reach);
        }
        else
        {
            centre = narrowed + (int)(0.2 / StepMm);
            // Back to the waist only: behind it the width grows to the shank and would bend the line.
            from = narrowed;
            for (int i = narrowed; i >= Math.Max(0, centre - reach); i--)
                if (smooth[i] < smooth[from]) from = i;
        }
        int to = Math.Min(z.Length, centre + reach + 1);
        BrokenLine? line = BrokenLine.Fit(z.AsSpan(from..to), width.AsSpan(from..to), StepMm);
        double soft = Quadrature.FromLimits(FitHalfWindowMm / 2);
        return line is { BreakSd: < 0.5 } ? new(line.BreakX, Quadrature.Sum(soft, line.BreakSd)) : new(z[centre], Quadrature.Sum(soft, 0.2));

        bool GoesOn(int from)
        {
            double tolerance = 0.5 * NeckNarrowing * smooth[widest];
            int narrowest = from;
            for (int i = from; i >= 0 && z[from] - z[i] <= NickLengthMm; i--)
            {
                if (smooth[i] < smooth[narrowest]) narrowest = i;
                // One side alone moves the middle by half of what the width loses, both sides alike by nothing: a quarter is half way.
                bool oneSided = Math.Abs(middle[narrowest] - middle[widest]) > 0.25 * (smooth[widest] - smooth[narrowest]);
                if (oneSided && smooth[i] > smooth[widest] - tolerance && Math.Abs(middle[i] - middle[widest]) < tolerance) return true;
            }
            return false;
        }
    }

    /// <summary>Behind the wings: the place where the width stops falling, half the steepest slope.</summary>
    private static int Foot(double[] z, double[] smooth, int narrowed)
    {
        int span = (int)(0.3 / StepMm);
        double steepest = 0;
        for (int i = narrowed; i >= span; i--)
        {
            double slope = (smooth[i] - smooth[i - span]) / (z[i] - z[i - span]);
            steepest = Math.Max(steepest, slope);
            if (slope < 0.5 * steepest) return i - span / 2;
        }
        return 0;
    }
}
