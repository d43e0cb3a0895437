using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;

namespace EdgeLens.Measuring.SideView;

/// <summary>Whether the bevel's contour is one straight line or has a bend next to the tip, as where a second bevel has been ground.</summary>
/// <param name="Told">The bend; null where none is told.</param>
/// <param name="ToldFromMm">Distance behind the tip from which on a bend of the reference would have been told; null where none would.</param>
/// <param name="WhyNot">Why none is told, in a sentence for the user; null where one is.</param>
/// <param name="IsStraight">True where there is none from that distance on.</param>
internal sealed record BevelBend(EdgeBend? Told, double? ToldFromMm, string? WhyNot, bool IsStraight)
{
    /// <summary>Least radius of a tip that would have bent a contour which is seen straight; null where it is not, or none would.</summary>
    public double? TipRadiusBelowMm { get; private init; }

    // Nearer to the tip its rounding is seen; two standard deviations of the corner's place are 0.07 mm, and a contour that begins before the tip looks like a rounded one, which is told apart.
    private const double BeginMm = 0.05;

    // As far as a second bevel may lead, 0.4 mm, and as much again of the bevel behind it.
    private const double EndMm = 0.80;

    // Before the bevel's end: twice its standard uncertainty, the corner to the back is a bend too.
    private const double BeforeEndMm = 0.15;

    // Roundings are sought up to twice the radius of the dullest edges, 0.05 mm.
    private const double RoundestMm = 0.10;

    private const int InwardPx = 5, OutwardPx = 7;
    private const double LeastBlurPx = 0.7, GreatestBlurPx = 1.8;

    // The bevel behind the bend must show its own direction: a line of 18 px in noise of half its step is good to 3°. A bend nearer to the stretch's end may be the bevel's.
    private const double LeastBehindPx = 18;

    // More is no second bevel but the tip itself, radians: 25°.
    private const double GreatestTurnRad = 25 * Math.PI / 180;

    // A bend is told from five standard deviations on: with the noise underestimated by three tenths still 3.8, passed by chance at one of some ten places in less than one of a thousand photographs.
    private const double Clear = 5, ClearOfStraight = Clear * Clear;

    // And where it is clearly likelier than a rounding or an even bow: 2 ln B > 10, "very strong" (Kass, Raftery, J. Am. Stat. Assoc. 90 (1995) 773-795; from memory).
    private const double ClearOfRound = 10;

    // Below three standard deviations nothing speaks for a bend.
    private const double NothingSpeaks = 3 * 3;

    // A bend whose turn is seven standard deviations is told in 98 of 100 photographs: five, and two for its own scatter.
    private const double SurelyTold = 7;

    // A likelihood ratio 2 ln B that is 33 in the mean scatters by 2 √33 = 11.5: it is above 10 in 98 of 100.
    private const double SurelyToldFromRound = 33;

    private const string Advice = "Move a light ahead of the tip, about 30° beside the blade's axis, and come nearer.";

    /// <summary>Seeks one.</summary>
    /// <param name="picture">The photograph.</param>
    /// <param name="lines">Face, back and bevel.</param>
    /// <param name="middle">Where face and back lie.</param>
    /// <param name="mmPerPx">At the blade.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <param name="referenceRad">Turn that <see cref="ToldFromMm"/> speaks of.</param>
    public static BevelBend Seek(TonePicture picture, BevelLine lines, BladeMiddle middle, double mmPerPx, Sharpening sharpening, double referenceRad)
    {
        Stretch bevel = lines.Bevel.Line;
        if (BevelEnd.Crossing(bevel, lines.Face.Line, middle.FaceInwardsMm.Value / mmPerPx) is not { } tip
            || BevelEnd.Crossing(bevel, lines.Back.Line, middle.BackInwardsMm.Value / mmPerPx) is not { } end)
            return CannotTell("Whether there is a second bevel cannot be told: bevel and back do not meet before the tip.");
        double from = tip + BeginMm / mmPerPx, to = Math.Min(tip + EndMm / mmPerPx, end - BeforeEndMm / mmPerPx);
        if (to - from < 2 * LeastBehindPx) return CannotTell("The bevel is too short in the photograph to tell a second one on it. Come nearer.");
        Stretch contour = Stretch.Between(bevel.At(from, 0), bevel.At(to, 0), bevel.At(from, -50));
        if (new BendSeeker(picture, contour, sharpening, InwardPx, OutwardPx, (LeastBlurPx, GreatestBlurPx), RoundestMm / mmPerPx, NothingSpeaks).Seek() is not { } search) return CannotTell("The bevel's contour is too faint to tell a second bevel. " + Advice);
        double? toldFrom = null;
        foreach ((double place, double sigma) in search.Strengths)
        {
            double strength = referenceRad / sigma, round = BendContrast.Round(contour.LengthPx, place, Math.Tan(referenceRad), RoundestMm / mmPerPx) * strength * strength;
            if (place > contour.LengthPx - LeastBehindPx || strength < SurelyTold || round < SurelyToldFromRound) continue;
            toldFrom = BeginMm + place * mmPerPx;
            break;
        }
        if (search.Best is not { } bend)
        {
            BevelBend straight = toldFrom is { } mm ? new(null, mm, FormattableString.Invariant($"The bevel is one straight line; a second bevel that is steeper by 10° would have been told from {mm:0.00} mm on."), true)
                : CannotTell("The bevel's contour is too faint to tell a second bevel. " + Advice);
            double wedge = Math.Acos(Math.Clamp(-bevel.Along.Dot(lines.Face.Line.Along), -1, 1)), corner = Measured.CoverageFactor * middle.FaceInwardsMm.StandardUncertainty / Math.Sin(wedge);
            if (!straight.IsStraight) return straight;
            return straight with { TipRadiusBelowMm = TipRounding.SeenFromMm(search.Strengths, contour.LengthPx, BeginMm + corner, wedge, mmPerPx) };
        }
        if (search.OverStraight < ClearOfStraight || bend.TurnRad.Value < Clear * bend.TurnRad.StandardUncertainty) return CannotTell("The bevel's contour is not quite straight, but not clearly bent: whether there is a second bevel cannot be told. " + Advice);
        if (bend.OverRound < ClearOfRound || bend.TurnRad.Value > GreatestTurnRad)
            return CannotTell("The bevel's contour bends away next to the tip, as at a rounded tip or a short second bevel: which of them cannot be told. " + Advice);
        if (bend.PlacePx.Value > contour.LengthPx - LeastBehindPx) return CannotTell("The bevel's contour bends near the bevel's end: whether there is a second bevel cannot be told.");
        return new(bend, toldFrom, null, false);
    }

    private static BevelBend CannotTell(string why) => new(null, null, why, false);
}
