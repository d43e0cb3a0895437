using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Drift;

/// <summary>Angles today less as-new (measurands.md). Missing where either photograph does not give the angle, with the reason.</summary>
/// <param name="FaceAngleDeg">Face to terminal shank.</param>
/// <param name="InternalAngleLeftDeg">Face to left lateral surface.</param>
/// <param name="InternalAngleRightDeg">Face to right lateral surface.</param>
/// <param name="WedgeAngleDeg">Bevel to opposite surface.</param>
public sealed record AngleDrift(Figure FaceAngleDeg, Figure InternalAngleLeftDeg, Figure InternalAngleRightDeg, Figure WedgeAngleDeg)
{
    /// <summary>Compares two photographs of the same view of the same working end.</summary>
    /// <param name="baseline">As-new.</param>
    /// <param name="today">Today.</param>
    /// <returns>The drift, or the refusal <c>other-view</c>.</returns>
    /// <remarks>The uncertainties add in quadrature: each photograph has its own alignment, camera and light. What they share, the shank's lean, is a small part.</remarks>
    public static Outcome<AngleDrift> Between(AngleMeasurement baseline, AngleMeasurement today)
    {
        ArgumentNullException.ThrowIfNull(baseline);
        ArgumentNullException.ThrowIfNull(today);
        if (baseline.View != today.View || baseline.Family != today.Family)
            return new Refusal("other-view", "The two photographs show different views or families.", "Compare toe view with toe view, side view with side view, of the same working end.");
        return new AngleDrift(
            Less(today.FaceAngleDeg, baseline.FaceAngleDeg), Less(today.InternalAngleLeftDeg, baseline.InternalAngleLeftDeg),
            Less(today.InternalAngleRightDeg, baseline.InternalAngleRightDeg), Less(today.WedgeAngleDeg, baseline.WedgeAngleDeg));
    }

    private static Figure Less(Figure today, Figure baseline) => (today.Measured, baseline.Measured) switch
    {
        ({ } now, { } then) => now.MinusIndependent(then),
        (null, _) => Figure.Missing($"Today: {today.WhyMissing}"),
        _ => Figure.Missing($"As-new: {baseline.WhyMissing}"),
    };
}
