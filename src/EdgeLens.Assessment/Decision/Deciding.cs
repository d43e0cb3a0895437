using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Decision;

/// <summary>What would decide a figure that lies too near to a limit: computed from its budget where that is known in parts.</summary>
public static class Deciding
{
    // The mean of more photographs than this is no advice for a practice.
    private const int MostPhotographs = 8;

    // Heights stated to ± 0.3 mm in place of ± 1.5 (docs/photographing.md), bars read to 0.01 mm in place of a print within 1 %, a profile in place of an assumed
    // camera distance of 115 ± 20 mm (17 %; a profile leaves refocusing, 1 %): what remains of each part.
    private const double HeightLeft = 0.2, PrintLeft = 0.05, LensLeft = 0.1;

    private static readonly (ContributionRemedy Remedy, double Left, string Advice)[] Remedies =
    [
        (ContributionRemedy.KnownHeight, HeightLeft, "state the height of the face over the card to 0.3 mm"),
        (ContributionRemedy.MeasuredCard, PrintLeft, "measure the caliper bars of the card"),
        (ContributionRemedy.LensProfile, LensLeft, "use a lens profile"),
    ];

    /// <summary>Advice in a sentence or two.</summary>
    /// <param name="open">Not decidable.</param>
    /// <param name="figure">Its value and uncertainty.</param>
    public static string Words(LimitCheck open, Measured figure)
    {
        double distance = Math.Abs(figure.Value - open.Limit);
        if (open.Budget is { } budget && budget.Combined > 0) return FromBudget(budget, distance);
        string general = open.What switch
        {
            CheckedFigure.ReflectingFraction or CheckedFigure.GreatestReflectionWidth or CheckedFigure.EdgeRadius =>
                "Another photograph with both panels on and the edge in best focus may decide; if not, test it on a plastic rod: a sharp edge bites, a dull one slides.",
            CheckedFigure.NickDepth => "Another photograph from nearer, with the edge in best focus, may decide.",
            CheckedFigure.FaceAngleDrift or CheckedFigure.InternalAngleDrift or CheckedFigure.WedgeAngleDrift => "Another toe or side view, laid in again, may decide.",
            CheckedFigure.ShapeDrift => "Another photograph may decide.",
            _ => "Another photograph, the caliper bars of the card as measured, and a known height of the face over the card may decide.",
        };
        return Photographs(figure.StandardUncertainty, 0, distance) is { } n ? general + Mean(n, " if the figure stays as it is") : general;
    }

    private static string FromBudget(UncertaintyBudget budget, double distance)
    {
        double photographs = PartOf(budget, c => c.Remedy == ContributionRemedy.AnotherPhotograph), other = PartOf(budget, c => c.Remedy != ContributionRemedy.AnotherPhotograph);
        if (Photographs(photographs, other, distance) is { } n)
            return FormattableString.Invariant($"The mean of {n} photographs would decide, if the figure stays as it is: take {n - 1} more, laying the instrument in again each time.");

        // One remedy after the other, the most effective first, each with as many photographs as it takes.
        List<string> advice = [];
        double left = other;
        foreach ((ContributionRemedy remedy, double share, string words) in Remedies.OrderByDescending(r => PartOf(budget, c => c.Remedy == r.Remedy)))
        {
            double part = PartOf(budget, c => c.Remedy == remedy);
            // A part of less than a tenth changes the uncertainty by half a percent.
            if (part < 0.1 * budget.Combined) continue;
            left = Math.Sqrt(Math.Max(0, left * left - part * part * (1 - share * share)));
            advice.Add(words);
            if (Photographs(photographs, left, distance) is { } m)
                return FormattableString.Invariant($"To decide, {string.Join(" and ", advice)}{(m > 1 ? $", and take the mean of {m} photographs" : "")}, if the figure stays as it is.");
        }
        UncertaintyContribution largest = budget.Contributions.MaxBy(c => c.InFigure)!;
        return $"It lies so near to the limit that no practical number of photographs decides ({largest.Name} leaves most unknown): take it for being at its limit and look again after the next sharpening.";
    }

    private static double PartOf(UncertaintyBudget budget, Func<UncertaintyContribution, bool> which) => Quadrature.Sum([.. budget.Contributions.Where(which).Select(c => c.InFigure)]);

    /// <summary>How many photographs' mean has U within the distance; null when more than is practical.</summary>
    /// <param name="perPhotograph">Standard uncertainty that differs from photograph to photograph.</param>
    /// <param name="common">Standard uncertainty that all of them share.</param>
    /// <param name="distance">From the figure to the limit, same unit.</param>
    public static int? Photographs(double perPhotograph, double common, double distance)
    {
        double room = Math.Pow(distance / Measured.CoverageFactor, 2) - common * common;
        if (!(room > 0)) return null;
        double n = Math.Ceiling(perPhotograph * perPhotograph / room - 1e-9);
        return n <= MostPhotographs ? Math.Max(1, (int)n) : null;
    }

    private static string Mean(int n, string condition) => n <= 1 ? "" : FormattableString.Invariant($" The mean of {n} photographs would,{condition}.");
}
