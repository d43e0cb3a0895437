using System.Collections.Immutable;
using System.Globalization;
using System.Xml.Linq;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>The uncertainty annex: where each figure's uncertainty comes from. On request.</summary>
internal static class BudgetSection
{
    /// <summary>Null when nothing was measured.</summary>
    public static XElement? Build(Inspection inspection)
    {
        ImmutableArray<FigureBudget> budgets = [.. inspection.Drift?.Budgets ?? [], .. inspection.Today is { } today ? FaceBudgets.Of(today) : []];
        return budgets.IsEmpty
            ? null
            : El("section.budgets",
                El("h2", "Where the uncertainties come from"),
                El("p.lead", "JCGM 100: independent contributions, each with its standard uncertainty u, sensitivity c and what it makes in the figure, |c| u; combined as the root of the sum of squares. ",
                    "U is twice that (k = 2). Contributions marked ● are the same in every comparison with these as-new photographs."),
                budgets.Select(Table));
    }

    private static XElement Table(FigureBudget budget)
    {
        string place = budget.StationMm is { } station ? string.Create(CultureInfo.InvariantCulture, $" at {station:0.00} mm") : "";
        return El("table",
            El("thead", El("tr", new[] { $"{budget.Figure}{place}", "u", "c", "|c| u", "degrees of freedom" }.Select(h => El("th", Attr("scope", "col"), h)))),
            El("tbody",
                budget.Budget.Contributions.Where(c => c.InFigure > 0).OrderByDescending(c => c.InFigure).Select(c => El("tr",
                    El("th", Attr("scope", "row"), c.Name, c.Origin == ContributionOrigin.AsNew ? " ●" : ""),
                    El("td", Short(c.StandardUncertainty)), El("td", Short(c.Sensitivity)), El("td", Short(c.InFigure)), El("td", Freedom(c.DegreesOfFreedom)))),
                El("tr", El("th", Attr("scope", "row"), $"combined; U = {Short(budget.Budget.Expanded)}"), El("td"), El("td"), El("td", Short(budget.Budget.Combined)), El("td", Freedom(budget.Budget.EffectiveDegreesOfFreedom)))));
    }

    private static string Short(double value) => value.ToString("G3", CultureInfo.InvariantCulture).Replace('-', '−');

    private static string Freedom(double freedom) => double.IsFinite(freedom) && freedom < 1000 ? FigureText.Number(Math.Floor(freedom), 0) : "many";
}
