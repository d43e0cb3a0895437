using System.Collections.Immutable;
using MathNet.Numerics.Distributions;

namespace EdgeLens.Geometry.Figures;

/// <summary>One line of an uncertainty budget.</summary>
/// <param name="Name">What it is, in words for the user.</param>
/// <param name="StandardUncertainty">Of the input quantity, in its own unit; at least 0.</param>
/// <param name="Sensitivity">Change of the figure per unit of the input quantity.</param>
/// <param name="DegreesOfFreedom">How well the standard uncertainty itself is known; infinite for an exactly known distribution.</param>
public sealed record UncertaintyContribution(string Name, double StandardUncertainty, double Sensitivity = 1, double DegreesOfFreedom = double.PositiveInfinity)
{
    /// <summary>The contribution to the figure's standard uncertainty, in the figure's unit.</summary>
    public double InFigure => Math.Abs(Sensitivity) * StandardUncertainty;

    /// <summary>Which photographs it comes from: what comes from the as-new ones is the same in every comparison with them.</summary>
    public ContributionOrigin Origin { get; init; } = ContributionOrigin.Today;

    /// <summary>What would make it smaller.</summary>
    public ContributionRemedy Remedy { get; init; } = ContributionRemedy.None;
}

/// <summary>What a user can do about a contribution.</summary>
public enum ContributionRemedy
{
    /// <summary>Nothing that is known.</summary>
    None,

    /// <summary>It differs from photograph to photograph: the mean of n has 1/√n of it.</summary>
    AnotherPhotograph,

    /// <summary>State the height of the face over the card within less.</summary>
    KnownHeight,

    /// <summary>Measure the card's bars with a caliper.</summary>
    MeasuredCard,

    /// <summary>Use a lens profile.</summary>
    LensProfile,
}

/// <summary>Which photographs of a comparison an uncertainty comes from.</summary>
public enum ContributionOrigin
{
    /// <summary>Today's, or both together: another one in every comparison.</summary>
    Today,

    /// <summary>The as-new ones.</summary>
    AsNew,
}

/// <summary>Where a figure's uncertainty comes from: independent contributions, combined by JCGM 100:2008.</summary>
/// <param name="Contributions">In any order; independent of each other (correlated inputs are one line with their joint effect).</param>
public sealed record UncertaintyBudget(ImmutableArray<UncertaintyContribution> Contributions)
{
    /// <summary>Combined standard uncertainty, JCGM 100 equation (10).</summary>
    public double Combined => Quadrature.Sum(Contributions.Select(c => c.InFigure).ToArray());

    /// <summary>Welch-Satterthwaite, JCGM 100 equation (G.2b); infinite when no contribution has finite degrees of freedom.</summary>
    public double EffectiveDegreesOfFreedom
    {
        get
        {
            double sum = Contributions.Sum(c => Math.Pow(c.InFigure, 4) / c.DegreesOfFreedom);
            return sum > 0 ? Math.Pow(Combined, 4) / sum : double.PositiveInfinity;
        }
    }

    /// <summary>Half width of the k = 2 interval.</summary>
    public double Expanded => Measured.CoverageFactor * Combined;

    /// <summary>Half width of the interval with a stated probability: Student's t at the effective degrees of freedom, JCGM 100 G.6.4, truncated to the next lower integer.</summary>
    /// <param name="probability">For example 0.95; between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not between 0 and 1, or there is less than one degree of freedom.</exception>
    public double ExpandedAt(double probability)
    {
        if (!(probability is > 0 and < 1)) throw new ArgumentOutOfRangeException(nameof(probability), probability, "Between 0 and 1.");
        double dof = EffectiveDegreesOfFreedom, tail = 0.5 + probability / 2;
        if (dof < 1) throw new ArgumentOutOfRangeException(nameof(probability), dof, "Less than one effective degree of freedom gives no interval.");
        return Combined * (double.IsInfinity(dof) ? Normal.InvCDF(0, 1, tail) : StudentT.InvCDF(0, 1, Math.Floor(dof), tail));
    }

    /// <summary>The same for the figure in another unit.</summary>
    /// <param name="factor">How many of the new unit make one of the old.</param>
    public UncertaintyBudget Scale(double factor) => new([.. Contributions.Select(c => c with { Sensitivity = factor * c.Sensitivity })]);

    /// <summary>The figure with this budget's standard uncertainty.</summary>
    public Measured Of(double value) => new(value, Combined);
}
