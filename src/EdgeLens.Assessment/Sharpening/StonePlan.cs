using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Sharpening;

/// <summary>How the edge was cut, against as-new.</summary>
public enum CutError
{
    /// <summary>Not to be told from as-new.</summary>
    None,

    /// <summary>The angle is smaller than as-new: thin, keen and weak; the stone stood too far open.</summary>
    OverCut,

    /// <summary>The angle is greater than as-new: blunt-angled; the stone stood too near to the face.</summary>
    UnderCut,
}

/// <summary>At what angle to hold the stone so that an edge gets its as-new angle back, and what that costs in steel.</summary>
/// <param name="StoneToFaceDeg">Angle between stone and face, measured outside the steel: 180° less the as-new angle.</param>
/// <param name="CorrectionDeg">As-new angle less today's.</param>
/// <param name="Error">Clear of the uncertainty (k = 2), else none.</param>
/// <param name="CostUm">How far the corner moves into the steel along the face until the stone touches the whole profile; missing without a profile.</param>
public sealed record StonePlan(Measured StoneToFaceDeg, Measured CorrectionDeg, CutError Error, Figure CostUm)
{
    private const double Degree = Math.PI / 180;

    /// <summary>A second bevel that has to go; null where none is told.</summary>
    public SecondBevel? SecondBevel { get; init; }

    /// <summary>Plans one edge.</summary>
    /// <param name="asNewDeg">Internal (or wedge) angle as-new.</param>
    /// <param name="todayDeg">Today.</param>
    /// <param name="profile">Today's section below the corner; null where none was seen.</param>
    /// <remarks>
    /// A stone at angle β to the face that cuts the face at w inside today's corner lies at w + d cot β inward in depth d. It touches everywhere when that is nowhere
    /// less than the profile's own inward distance x(d): w = max (x - d cot β), and never less than 0. A too blunt edge therefore costs nothing, a too thin
    /// one, straight down to depth D, costs D (cot β_today - cot β). JCGM 100:2008, 5.1.2 for the uncertainty, which takes the profile's scatter from its angle's.
    /// </remarks>
    public static StonePlan For(Measured asNewDeg, Measured todayDeg, SectionProfile? profile)
    {
        Measured stone = new(180 - asNewDeg.Value, asNewDeg.StandardUncertainty), correction = asNewDeg.MinusIndependent(todayDeg);
        CutError error = Math.Abs(correction.Value) <= correction.ExpandedUncertainty ? CutError.None : correction.Value > 0 ? CutError.OverCut : CutError.UnderCut;
        return new(stone, correction, error, Cost(asNewDeg, todayDeg, profile));
    }

    private static Figure Cost(Measured asNew, Measured today, SectionProfile? profile)
    {
        if (profile is null || profile.Points.Length == 0) return Figure.Missing("The photograph does not show the section's outline below this edge.");
        double cot = 1 / Math.Tan(asNew.Value * Degree), cost = 0, depth = 0;
        foreach (SectionPoint p in profile.Points)
        {
            depth = Math.Max(depth, p.DepthMm);
            double inside = p.InwardMm - p.DepthMm * cot;
            cost = Math.Max(cost, inside);
        }
        double byAsNew = depth * asNew.StandardUncertainty * Degree / Math.Pow(Math.Sin(asNew.Value * Degree), 2);
        double byToday = depth * today.StandardUncertainty * Degree / Math.Pow(Math.Sin(today.Value * Degree), 2);
        return new Measured(cost, Quadrature.Sum(byAsNew, byToday)).Scale(1000);
    }
}
