using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Calibration;
using MathNet.Numerics.LinearAlgebra;

namespace EdgeLens.Measuring.RoundGauge;

/// <summary>Diameter of a blackened rod that lies across the card's window, from its two edges in the photograph.</summary>
/// <param name="DiameterMm">With its full uncertainty.</param>
/// <param name="Budget">Contributions, mm.</param>
/// <param name="Stretches">Stretches of either edge that were fitted.</param>
public sealed record RodDiameter(Measured DiameterMm, UncertaintyBudget Budget, int Stretches)
{
    /// <summary>A rod lies on the card within this: paper that curls, a hub that lifts one end. Rectangular, mm.</summary>
    public const double RestsWithinMm = 0.3;

    /// <summary>Film that a marker pen leaves, mm: dry pen ink is about half a micrometre to three thick (rectangular, common practice).</summary>
    public static readonly Measured InkFilmMm = new(1.75e-3, Quadrature.FromLimits(1.25e-3));

    /// <summary>
    /// How far inside the silhouette the ink's edge is seen, as a share of the radius. At grazing incidence ink mirrors the white paper behind the rod: with Fresnel's
    /// reflectance F of a lacquer of index 1.5 the edge seen at half level lies r ∫ F sin φ dφ inside, φ from the silhouette to where F is a tenth (30°): between nothing
    /// (rough ink) and 0.03 r (gloss), of which the fit takes the share of the first 10°, 0.008 r. Rectangular from 0 to that.
    /// </summary>
    public static readonly Measured GrazingShare = new(0.004, Quadrature.FromLimits(0.004));

    // Offset of a fitted edge in one photograph, as for a blade's outline (DriftOptions.CommonEdgeErrorUm): both edges move outwards or inwards together.
    private const double CommonEdgeErrorMm = 0.8e-3;

    /// <summary>From places on the two edges.</summary>
    /// <param name="calibration">Of the photograph.</param>
    /// <param name="first">Fitted places on one edge, one for each stretch; at least 4.</param>
    /// <param name="second">On the other.</param>
    /// <returns>The diameter, or the refusal <c>rod-edges-short</c>.</returns>
    /// <remarks>
    /// Each edge and the camera's centre span a plane that touches the rod; both contain the rod's direction. With the angle 2α between them the radius is c sin α, c
    /// being the camera's distance from the axis. The axis lies one radius above the card: with H the camera's height over the card and b the bisecting unit
    /// vector, H - c b_z = c sin α, so c = H / (b_z + sin α). No scale in any plane is taken over: perspective and height of the axis are in it exactly.
    /// </remarks>
    public static Outcome<RodDiameter> Of(CardCalibration calibration, IReadOnlyList<PixelPoint> first, IReadOnlyList<PixelPoint> second)
    {
        ArgumentNullException.ThrowIfNull(calibration);
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        int fewest = Math.Min(first.Count, second.Count);
        if (fewest < 4) return new Refusal("rod-edges-short", "Too little of the rod's two edges can be followed.", "Lay the rod across the window, blackened along its whole length, and take the photograph again.", fewest, 4, "stretches");
        Vector3 centre = calibration.CameraFromCardRotation.ApplyInverse(-1 * calibration.CameraFromCardTranslationMm);
        Vector3[] a = [.. first.Select(Ray)], b = [.. second.Select(Ray)];
        Vector3 middle = Sum(a.Concat(b)).Unit;
        (Vector3 na, double sa) = Plane(a, middle);
        (Vector3 nb, double sb) = Plane(b, middle);
        double alpha = (Math.PI - Math.Acos(Math.Clamp(na.Dot(nb), -1, 1))) / 2, sine = Math.Sin(alpha);
        Vector3 axis = (na + nb).Unit;
        double distance = -centre.Z / (axis.Z + sine), seen = 2 * distance * sine;

        Vector3 across = axis.Cross(na.Cross(nb)).Unit;
        ScaleBudget scale = calibration.ScaleBudget(new(seen / 2, 0), new(across.X, across.Y));
        double scatter = distance * Quadrature.Sum(sa, sb), freedom = first.Count + second.Count - 4;
        double diameter = seen / (1 - GrazingShare.Value) - 2 * InkFilmMm.Value;
        UncertaintyBudget budget = new(
        [
            new("scale: where the card's corners were found", scale.Corners, diameter), new("scale: the print's bars", scale.Print, diameter), new("scale: lens", scale.Lens, diameter),
            new("height of the rod over the card", Quadrature.FromLimits(RestsWithinMm), diameter / -centre.Z),
            new("scatter of the edges", scatter, 1, Math.Max(1, freedom)), new("offset of the edges", 2 * CommonEdgeErrorMm),
            new("film of ink", InkFilmMm.StandardUncertainty, 2), new("edge of the ink at grazing light", GrazingShare.StandardUncertainty, diameter),
        ]);
        return new RodDiameter(budget.Of(diameter), budget, fewest);

        Vector3 Ray(PixelPoint p)
        {
            CardPoint onCard = calibration.ToPlane(p, 0);
            return (new Vector3(onCard.XMm, onCard.YMm, 0) - centre).Unit;
        }
    }

    /// <summary>The plane through the camera's centre that lies nearest to the rays: its normal towards the inside, and the standard deviation of its angle, rad.</summary>
    private static (Vector3 Normal, double AngleSd) Plane(Vector3[] rays, Vector3 inside)
    {
        Matrix<double> m = Matrix<double>.Build.Dense(rays.Length, 3, (i, k) => k switch { 0 => rays[i].X, 1 => rays[i].Y, _ => rays[i].Z });
        Vector<double> least = m.Svd().VT.Row(2);
        Vector3 n = new(least[0], least[1], least[2]);
        double variance = rays.Sum(r => Math.Pow(n.Dot(r), 2)) / (rays.Length - 2);
        return (n.Dot(inside) < 0 ? -1 * n : n, Math.Sqrt(variance / rays.Length));
    }

    private static Vector3 Sum(IEnumerable<Vector3> all) => all.Aggregate(new Vector3(0, 0, 0), (s, v) => s + v);
}
