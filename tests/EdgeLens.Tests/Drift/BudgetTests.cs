using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.Drift;

/// <summary>Outside: quadrature by hand; correlation by JCGM 100:2008, 5.2.</summary>
public sealed class BudgetTests
{
    private static readonly FaceMeasurement Face = SyntheticCases.DullAndNicked.Today();

    private static readonly ScaleParts Parts = new(0.0003, 0.0004, 0.0012, 0.0084);

    [Fact]
    public void The_same_print_in_both_photographs_cancels_in_their_ratio()
    {
        ScaleSummary then = Scale("40.02 x 29.98 mm"), now = Scale("40.02 x 29.98 mm"), other = Scale("40.01 x 29.98 mm");
        double all = Math.Sqrt(2) * Quadrature.Sum(0.0003, 0.0004, 0.0012, 0.0084), withoutPrint = Math.Sqrt(2) * Quadrature.Sum(0.0003, 0.0012, 0.0084);
        Assert.Equal(withoutPrint, ScaleRatio.StandardUncertainty(then, now), 9);
        Assert.Equal(all, ScaleRatio.StandardUncertainty(then, other), 9);
        // Not measured: two prints may differ.
        Assert.Equal(all, ScaleRatio.StandardUncertainty(Scale(null), Scale(null)), 9);
    }

    [Fact]
    public void Parts_add_up_to_the_whole_and_name_what_helps()
    {
        UncertaintyContribution[] parts = [.. ScaleRatio.Of(Scale(null), Scale(null))];
        Assert.Equal(8, parts.Length);
        Assert.Equal(4, parts.Count(p => p.Origin == ContributionOrigin.AsNew));
        Assert.Equal(ContributionRemedy.KnownHeight, parts.MaxBy(p => p.Origin == ContributionOrigin.Today ? p.InFigure : 0)!.Remedy);
    }

    [Fact]
    public void Every_figure_of_a_face_view_has_a_budget_that_adds_up_to_its_uncertainty()
    {
        FigureBudget[] budgets = [.. FaceBudgets.Of(Face with { Scale = Face.Scale with { Parts = new(0.001, 0.002, 0.002, 0.0033541) } })];
        // 0.001² + 0.002² + 0.002² + 0.0033541² make 0.0045², the stated scale uncertainty.
        foreach (StationWidth w in Face.Widths)
            Assert.Equal(w.WidthMm.StandardUncertainty, budgets.Single(b => b.Figure == "widthMm" && b.StationMm == w.StationMm).Budget.Combined, 4);
        Assert.Equal(Face.ToeRadiusUm.Measured!.Value.StandardUncertainty, budgets.Single(b => b.Figure == "toeRadiusUm").Budget.Combined, 1);
        Assert.Equal(4, budgets.Single(b => b.Figure == "nickDepthUm").Budget.Combined, 1);
        Assert.Contains(budgets, b => b.Figure == "reflectingFractionPercent, left");
    }

    private static ScaleSummary Scale(string? print) => Face.Scale with { RelativeStandardUncertainty = Quadrature.Sum(Parts.Corners, Parts.Print, Parts.Lens, Parts.Height), Parts = Parts with { PrintName = print } };
}
