using EdgeLens.Imaging.Lines;

namespace EdgeLens.Measuring.SideView;

/// <summary>How round a tip can be whose bevel's contour is seen straight: a bound, since a contour that fades looks like one that is rounded.</summary>
internal static class TipRounding
{
    // Up to four times the dullest edges, 0.05 mm; more tells nothing.
    private const double GreatestMm = 0.20, StepMm = 0.002;

    // A straight contour is one below three standard deviations; a rounding of five in the mean is above them in 98 of 100.
    private const double SurelySeen = 5 * 5;

    /// <summary>Least radius, mm, from which on a rounding would have been seen; null where none would.</summary>
    /// <param name="strengths">Of the search for a bend: how well a turn is known at each place.</param>
    /// <param name="lengthPx">Of the contour.</param>
    /// <param name="beginMm">Where the contour begins behind the corner of face and bevel; its uncertainty (k = 2) is to be taken off.</param>
    /// <param name="wedgeRad">Angle between face and bevel.</param>
    /// <param name="mmPerPx">At the blade.</param>
    /// <remarks>A circle of radius R between face and bevel leaves the bevel R cot(β/2) behind their corner, and lies (p - t)²/2R inside the bevel's line from there on.</remarks>
    public static double? SeenFromMm(IReadOnlyList<(double PlacePx, double TurnSigmaRad)> strengths, double lengthPx, double beginMm, double wedgeRad, double mmPerPx)
    {
        if (strengths.Count == 0) return null;
        double? from = null;
        for (double radius = GreatestMm; radius >= StepMm; radius -= StepMm)
        {
            double place = (radius / Math.Tan(wedgeRad / 2) - beginMm) / mmPerPx;
            if (place < 1) break;
            (double at, double sigma) = strengths.MinBy(s => Math.Abs(Math.Log(s.PlacePx / place)));
            // Noise of one scan line there, squared: what makes a turn at that place as uncertain as it is.
            double noise = sigma * sigma * BendContrast.BendSquares(lengthPx, at);
            if (BendContrast.CircleSquares(lengthPx, place, radius / mmPerPx) < SurelySeen * noise) break;
            from = radius;
        }
        return from;
    }
}
