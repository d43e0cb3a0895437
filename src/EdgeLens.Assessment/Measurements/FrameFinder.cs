using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Measurements;

/// <summary>A place of the silhouette as the photograph gives it.</summary>
/// <param name="Place">Card millimetres, in the plane of the face.</param>
/// <param name="StandardUncertaintyUm">Along the outline's normal, above 0.</param>
public readonly record struct SilhouettePoint(CardPoint Place, double StandardUncertaintyUm);

/// <summary>
/// Finds the frame of the working end from its silhouette alone (measurands.md): axis along z from heel to toe, +x to the left seen from heel to toe with the
/// face up. z = 0 is the heel as estimated here; stations count back from the apex, so no figure hangs on that estimate.
/// </summary>
/// <remarks>
/// Handedness: the face looks at the camera, so y (out of the face) points against the card's z (into the card), and with (x, y, z) and the card's axes both
/// right-handed, (x, z) is a rotation of card (X, Y), never a mirror image. Seen in (x, z) a U from the left heel over the apex to the right heel encloses a
/// positive area; as a rotation keeps the sign, the area in card coordinates tells the order of the points before any axis is known.
/// </remarks>
public static class FrameFinder
{
    /// <summary>Fewest points: below a hundred no working end is sampled once per pixel.</summary>
    public const int FewestPoints = 100;

    /// <summary>Least length over width at the back: a shorter U has no axis. The shortest blades of the trade are about 4 mm by 1 mm.</summary>
    public const double LeastSlenderness = 1.2;

    /// <summary>The axis is the midline over the middle 60 % of the blade (measurands.md).</summary>
    private const double MiddleFrom = 0.2, MiddleTo = 0.8;

    private const int MostIterations = 30;

    /// <summary>How far behind the heel the outline goes on: drift is registered on the shank's root too, which lies at about the face's height only this near.</summary>
    private const double RootMm = 1.0;

    /// <summary>Turn below which the axis stands: at 10 mm it moves nothing by more than 0.01 µm.</summary>
    private const double SettledRad = 1e-6;

    /// <summary>Shift below which the heel stands; it is uncertain by some tenths of a millimetre.</summary>
    private const double SettledHeelMm = 1e-3;

    /// <summary>Finds frame and outline.</summary>
    /// <param name="silhouette">From one side's heel end round the apex to the other side, either way round; may run on past the heel on to the shank's root.</param>
    /// <param name="traits">The family, for the heel's form.</param>
    /// <returns>
    /// The outline from heel to heel in its frame, or a refusal: <c>outline-too-short</c>, <c>outline-not-finite</c>, <c>outline-no-axis</c>.
    /// </returns>
    public static Outcome<Outline> Find(ImmutableArray<SilhouettePoint> silhouette, FamilyTraits traits)
    {
        if (silhouette.Length < FewestPoints)
            return new Refusal("outline-too-short", "Too little of the blade's outline was found", "Retake with the whole blade in the window.", silhouette.Length, FewestPoints, "points");
        Vector2[] card = [.. silhouette.Select(p => new Vector2(p.Place.XMm, p.Place.YMm))];
        double[] sigma = [.. silhouette.Select(p => p.StandardUncertaintyUm)];
        if (card.Any(p => !double.IsFinite(p.X) || !double.IsFinite(p.Y)) || sigma.Any(s => !(s > 0) || !double.IsFinite(s)))
            return new Refusal("outline-not-finite", "A point of the outline has no finite place or no uncertainty", "This is a fault of the program; report it with the photograph.");
        if (Polyline.SignedArea(card) < 0)
        {
            Array.Reverse(card);
            Array.Reverse(sigma);
        }

        double noiseMm = Math.Sqrt(2) * RobustSmoother.Median(sigma) / 1000;
        Similarity bladeFromCard = FirstFrame(card);
        Measured heel = default;
        for (int k = 0; k < MostIterations; k++)
        {
            Vector2[] blade = Array.ConvertAll(card, bladeFromCard.Apply);
            if (Midline.Of(blade) is not { } midline || midline.LengthMm < LeastSlenderness * midline.BackWidthMm) return NoAxis();
            heel = HeelFinder.Find(midline.Z, midline.Width, midline.Middle, noiseMm, traits);
            double length = midline.ApexZ - heel.Value;
            if (!midline.Line(heel.Value + MiddleFrom * length, heel.Value + MiddleTo * length).TryGet(out StraightLine? axis, out _)) return NoAxis();
            // The axis x = a + b z is to become x = 0: turn by +atan b, (x, z) -> (x cos - z sin, x sin + z cos) takes (b, 1) to (0, .).
            double turn = Math.Atan(axis.Slope);
            Similarity rotate = new(1, turn, 0, 0);
            Vector2 foot = rotate.Apply(new(axis.At(heel.Value), heel.Value));
            bladeFromCard = new Similarity(1, turn, -foot.X, -foot.Y) * bladeFromCard;
            if (Math.Abs(turn) < SettledRad && Math.Abs(heel.Value) < SettledHeelMm) break;
        }

        int[] kept = Enumerable.Range(0, card.Length).Where(i => bladeFromCard.Apply(card[i]).Y >= -RootMm).ToArray();
        // From the last crossing of the root's end before the apex to the first one after it: a shank that leans over the heel again is left out.
        int apex = kept.MaxBy(i => bladeFromCard.Apply(card[i]).Y), from = apex, to = apex;
        while (from > 0 && bladeFromCard.Apply(card[from - 1]).Y >= -RootMm) from--;
        while (to < card.Length - 1 && bladeFromCard.Apply(card[to + 1]).Y >= -RootMm) to++;
        if (to - from + 1 < FewestPoints) return NoAxis();
        Vector2[] places = Array.ConvertAll(card[from..(to + 1)], bladeFromCard.Apply);
        return OutlineBuilder.Build(places, sigma.AsSpan(from..(to + 1)), bladeFromCard) with { HeelStandardUncertaintyMm = heel.StandardUncertainty };
    }

    /// <summary>Start: z from the middle between the two ends to the point farthest from it.</summary>
    private static Similarity FirstFrame(Vector2[] card)
    {
        Vector2 back = 0.5 * (card[0] + card[^1]);
        Vector2 forward = card.MaxBy(p => (p - back).Length) - back;
        // (X, Y) along `forward` must become (0, 1): turn by 90° less its angle.
        Similarity turn = new(1, Math.PI / 2 - Math.Atan2(forward.Y, forward.X), 0, 0);
        Vector2 origin = turn.Apply(back);
        return turn with { Dx = -origin.X, Dy = -origin.Y };
    }

    private static Refusal NoAxis() =>
        new("outline-no-axis", "The outline has no axis: it is not a blade seen from its face", "Retake with the blade's face square to the camera and the whole blade in the window.");
}
