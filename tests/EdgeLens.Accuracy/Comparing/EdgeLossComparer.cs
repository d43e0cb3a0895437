using EdgeLens.Accuracy.Truth;
using EdgeLens.Assessment.Drift;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Accuracy.Comparing;

/// <summary>
/// Edge loss per place of the as-new outline. Our arc begins elsewhere than the truth's, so each of our places is found on the true as-new outline through
/// the as-new photograph; there the true loss is the distance between the two true outlines along the as-new normal. (The truth file's own table
/// has a step of 0.05 mm, too coarse to interpolate in a nick.)
/// </summary>
public sealed class EdgeLossComparer : IMeasurandComparer
{
    /// <summary>Step of the places where a loss should have been measured, mm (measurands.md).</summary>
    private const double StepMm = 0.05;

    /// <summary>A truth place counts as measured when one of ours is this near: one step, and a little for the two arcs' different rounding.</summary>
    private const double NearMm = 0.06;

    /// <summary>As the truth's makers did: a crossing farther off belongs to another part of the outline.</summary>
    private const double ReachMm = 1;

    /// <inheritdoc />
    public string Name => "edgeLossUm";

    /// <inheritdoc />
    public string Unit => "µm";

    /// <inheritdoc />
    public Comparison Compare(FaceCase face)
    {
        if (face.Baseline is not { } baseline) return Comparison.NotApplicable;
        Curve asNew = baseline.Truth.Outline, today = face.Truth.Outline;
        double[] wanted =
        [
            .. from step in Enumerable.Range(0, (int)(asNew.Arcs[^1] / StepMm))
               let place = asNew.PlaceAt(step * StepMm)
               where baseline.Truth.IsMeasured(asNew.At(place)) && TrueLossUm(asNew, place, today) is not null
               select step * StepMm,
        ];
        if (face.Drift is not { } drift || baseline.Seen is not { } seen) return Comparison.AllMissing(wanted.Length);
        List<ErrorSample> samples = [];
        List<double> measuredArcs = [];
        foreach (EdgeLossSample sample in drift.EdgeLoss)
        {
            if (sample.LossUm.Measured is not { } loss) continue;
            // The same place in the picture and on the blade: both true curves have the same points.
            CurvePlace place = baseline.Truth.Silhouette.Nearest(seen.PixelAt(sample.ArcMm));
            if (!baseline.Truth.IsMeasured(asNew.At(place)) || TrueLossUm(asNew, place, today) is not { } truth) continue;
            samples.Add(ErrorSample.Of(loss, truth));
            measuredArcs.Add(asNew.ArcOf(place));
        }
        measuredArcs.Sort();
        return new([.. samples], wanted.Count(arc => !HasNear(measuredArcs, arc)));
    }

    /// <summary>Distance from the as-new outline to today's along the inward normal, µm; null where the normal does not meet it.</summary>
    public static double? TrueLossUm(Curve asNew, CurvePlace place, Curve today)
    {
        Vector2 along = asNew.DirectionAt(place);
        return today.Crossing(asNew.At(place), along.Perpendicular, along, ReachMm)?.Offset * 1000;
    }

    private static bool HasNear(List<double> sorted, double arc)
    {
        int found = sorted.BinarySearch(arc);
        if (found >= 0) return true;
        return (~found < sorted.Count && sorted[~found] - arc <= NearMm) || (~found > 0 && arc - sorted[~found - 1] <= NearMm);
    }
}
