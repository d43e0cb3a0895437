using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;

namespace EdgeLens.Assessment.Measurements;

/// <summary>
/// The tip edge of a luxator or elevator: the curved end between its two corners with the sides, where the outline's heading begins to change.
/// </summary>
/// <param name="LeftCornerArcMm">Arc of the left corner, with its standard uncertainty.</param>
/// <param name="RightCornerArcMm">Arc of the right corner.</param>
public sealed record TipEdge(Measured LeftCornerArcMm, Measured RightCornerArcMm)
{
    /// <summary>Heading, degrees away from straight ahead, that surely belongs to the tip: half way to the side.</summary>
    private const double SurelyTipDeg = 45;

    /// <summary>How much of the outline behind the place of 45° is looked at, in lengths from there to the apex: on a half circle the corner lies at 1.</summary>
    private const double LookBack = 1.8;

    /// <summary>
    /// Rectangular limit of a corner: where a side runs into the tip without a kink, a heading 10° off the side's is where the eye sees the corner, and with the
    /// 1.2 mm end radius of the trade's tips that is 0.2 mm from where the curve begins. Part of the definition, not of the noise (JCGM 200:2012, 2.27).
    /// </summary>
    private const double SoftnessMm = 0.2;

    /// <summary>Length along the outline.</summary>
    public double LengthMm => RightCornerArcMm.Value - LeftCornerArcMm.Value;

    /// <summary>Standard uncertainty of the length: the plain sum, because whoever sets one corner farther out sets the other one so too.</summary>
    public double LengthStandardUncertaintyMm => LeftCornerArcMm.StandardUncertainty + RightCornerArcMm.StandardUncertainty;

    /// <summary>How far along the outline the tip edge and its corners surely lie from the apex: the farther 45° place, and what is looked at behind it.</summary>
    public static double ReachMm(Outline outline) =>
        (1 + LookBack) * Math.Max(Math.Abs(outline.Points[SurelyTip(outline, -1)].ArcMm - outline.Apex.ArcMm), Math.Abs(outline.Points[SurelyTip(outline, 1)].ArcMm - outline.Apex.ArcMm));

    /// <summary>Finds the corners.</summary>
    /// <param name="outline">In its frame.</param>
    /// <param name="filled">The same outline with its nicks filled: their flanks turn the heading as a corner does.</param>
    /// <returns>The tip edge, arcs along <paramref name="outline"/>, or the refusal <c>tip-edge-not-found</c>.</returns>
    public static Outcome<TipEdge> Find(Outline outline, Outline filled) =>
        Corner(filled, -1) is { } left && Corner(filled, 1) is { } right
            ? new TipEdge(ArcIn(outline, filled, left), ArcIn(outline, filled, right))
            : new Refusal("tip-edge-not-found", "The tip's arc has no clear ends", "Check that the family is right and that the tip is sharp in the picture.");

    /// <summary>Filling shortens the arc; a place keeps its points.</summary>
    private static Measured ArcIn(Outline outline, Outline filled, Measured arc)
    {
        int i = 0;
        while (i < filled.Points.Length - 2 && filled.Points[i + 1].ArcMm < arc.Value) i++;
        return new(outline.Points[i].ArcMm + arc.Value - filled.Points[i].ArcMm, arc.StandardUncertainty);
    }

    /// <summary>Heading: 0 at the apex, growing to 90° on the side, whichever side it is.</summary>
    private static double HeadingDeg(OutlinePoint p, int direction) => Math.Atan2(direction * p.Inward.X, -p.Inward.Y) * 180 / Math.PI;

    private static int SurelyTip(Outline outline, int direction)
    {
        int tip = outline.ApexIndex;
        while (tip > 0 && tip < outline.Points.Length - 1 && HeadingDeg(outline.Points[tip], direction) < SurelyTipDeg) tip += direction;
        return tip;
    }

    private static Measured? Corner(Outline outline, int direction)
    {
        double apexArc = outline.Apex.ArcMm;
        int tip = SurelyTip(outline, direction);
        double half = Math.Abs(outline.Points[tip].ArcMm - apexArc);
        List<double> arc = [], heading = [];
        for (int i = tip; i >= 0 && i < outline.Points.Length; i += direction)
        {
            double back = Math.Abs(outline.Points[i].ArcMm - apexArc);
            if (back > half + LookBack * half) break;
            arc.Add(back);
            heading.Add(HeadingDeg(outline.Points[i], direction));
        }
        BrokenLine? line = BrokenLine.Fit([.. arc], [.. heading], 0.02);
        if (line is null || !double.IsFinite(line.BreakSd) || line.SlopeBefore <= Math.Abs(line.SlopeAfter)) return null;
        return new(apexArc + direction * line.BreakX, Quadrature.Sum(line.BreakSd, Quadrature.FromLimits(SoftnessMm)));
    }
}
