using EdgeLens.Accuracy.Truth;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Accuracy.Comparing;

/// <summary>
/// Signed distance of the measured outline from the true one along the true one's normal, in pixels of the photograph; + is outside. Both are seen
/// in the picture (ours through our calibration, the truth through the true camera), so that scale, height and frame cancel.
/// </summary>
public sealed class OutlineComparer : IMeasurandComparer
{
    /// <summary>Farther off than this lies something else than the outline: missing. Wide, so that blunders show as errors.</summary>
    private const double ReachMm = 0.5;

    /// <inheritdoc />
    public string Name => "outlineNormalPx";

    /// <inheritdoc />
    public string Unit => "px";

    /// <inheritdoc />
    public Comparison Compare(FaceCase face)
    {
        Curve truth = face.Truth.Silhouette;
        int[] wanted = [.. Enumerable.Range(0, truth.Points.Length).Where(i => face.Truth.IsMeasured(face.Truth.Outline.Points[i]))];
        if (face.Seen is null) return Comparison.AllMissing(wanted.Length);
        double mmPerPx = face.Truth.MmPerPx;
        List<ErrorSample> samples = [];
        foreach (int i in wanted)
        {
            Vector2 along = truth.DirectionAt(i), outward = -1 * along.Perpendicular;
            if (face.Seen.Silhouette.Crossing(truth.Points[i], outward, along, ReachMm / mmPerPx) is { } crossing)
                samples.Add(new(crossing.Offset, face.Seen.UncertaintyUmAt(crossing.Place) / 1000 / mmPerPx));
        }
        return new([.. samples], wanted.Length - samples.Count);
    }
}
