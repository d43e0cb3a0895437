using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Measurements;

/// <summary>A second, steeper bevel next to the tip's edge, as careless sharpening grinds it: what a side view tells of it.</summary>
/// <param name="IsThere">True where it is told, false where one from <paramref name="ToldFromMm"/> on would have been told, null where the photograph does not tell.</param>
/// <param name="LengthMm">Along its surface, from its corner with the face to its bend with the bevel; missing where there is none, with the reason.</param>
/// <param name="SteeperDeg">By how much it is steeper than the bevel.</param>
/// <param name="EdgeAngleDeg">Its angle with the face: the wedge at the very edge, where <see cref="AngleMeasurement.WedgeAngleDeg"/> is the bevel's.</param>
/// <param name="ToldFromMm">Length from which on one that is steeper by <see cref="ReferenceDeg"/> is told; null where none is.</param>
public sealed record SecondBevel(bool? IsThere, Figure LengthMm, Figure SteeperDeg, Figure EdgeAngleDeg, double? ToldFromMm)
{
    /// <summary>What a hand that holds the stone too steeply is off by: 5 to 15° (common practice).</summary>
    public const double ReferenceDeg = 10;

    /// <summary>None is told, and why.</summary>
    /// <param name="why">In a sentence.</param>
    /// <param name="isThere">False or null.</param>
    /// <param name="toldFromMm">As above.</param>
    public static SecondBevel Not(string why, bool? isThere = null, double? toldFromMm = null)
    {
        Figure missing = Figure.Missing(why);
        return new(isThere, missing, missing, missing, toldFromMm);
    }
}
