using System.Text.Json;
using EdgeLens.Assessment.Drift;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Reports.Json;

/// <summary>Uncertainty budgets.</summary>
internal static class BudgetJson
{
    public static void WriteBudgets(this Utf8JsonWriter json, string name, IEnumerable<FigureBudget> budgets) => json.WriteObjects(name, budgets, (j, b) =>
    {
        j.WriteString("figure", b.Figure);
        j.WriteOptional("stationMm", b.StationMm);
        j.WriteNumber("combined", Precise(b.Budget.Combined));
        j.WriteNumber("expanded", Precise(b.Budget.Expanded));
        j.WriteOptional("effectiveDegreesOfFreedom", Finite(b.Budget.EffectiveDegreesOfFreedom));
        j.WriteObjects("contributions", b.Budget.Contributions, (k, c) =>
        {
            k.WriteString("name", c.Name);
            k.WriteNumber("contribution", Precise(c.InFigure));
            k.WriteNumber("standardUncertainty", Precise(c.StandardUncertainty));
            k.WriteNumber("sensitivity", Precise(c.Sensitivity));
            k.WriteOptional("degreesOfFreedom", Finite(c.DegreesOfFreedom));
            k.WriteBoolean("isSharedByAllComparisons", c.Origin == ContributionOrigin.AsNew);
        });
    });

    private static double? Finite(double freedom) => double.IsFinite(freedom) ? freedom : null;

    // Relative uncertainties are of the order 1e-4: six digits that count, whatever the size.
    private static double Precise(double value) => value == 0 ? 0 : Math.Round(value, Math.Clamp(6 - (int)Math.Ceiling(Math.Log10(Math.Abs(value))), 0, 15));
}
