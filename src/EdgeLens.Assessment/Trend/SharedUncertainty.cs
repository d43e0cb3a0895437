using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Trend;

/// <summary>Which part of a loss's uncertainty all comparisons with the same as-new photographs share.</summary>
public static class SharedUncertainty
{
    /// <summary>Standard uncertainty, in the budget's unit, of the contributions that come from the as-new photographs.</summary>
    public static double Of(UncertaintyBudget budget)
    {
        ArgumentNullException.ThrowIfNull(budget);
        return Quadrature.Sum([.. budget.Contributions.Where(c => c.Origin == ContributionOrigin.AsNew).Select(c => c.InFigure)]);
    }

    /// <summary>The same as a share of the whole, 0 to 1: for the same loss stated in another unit (percent of the width).</summary>
    public static double ShareOf(UncertaintyBudget budget)
    {
        ArgumentNullException.ThrowIfNull(budget);
        return budget.Combined > 0 ? Of(budget) / budget.Combined : 0;
    }
}
