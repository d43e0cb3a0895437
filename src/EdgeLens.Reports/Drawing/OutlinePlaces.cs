using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Reports.Drawing;

/// <summary>Places on an outline.</summary>
internal static class OutlinePlaces
{
    /// <summary>Index of the outline point nearest to a length along the outline.</summary>
    public static int IndexAt(Outline outline, double arcMm)
    {
        int after = 0, end = outline.Points.Length;
        while (after < end)
        {
            int middle = (after + end) / 2;
            if (outline.Points[middle].ArcMm < arcMm) after = middle + 1;
            else end = middle;
        }
        if (after == outline.Points.Length) return after - 1;
        return after > 0 && arcMm - outline.Points[after - 1].ArcMm < outline.Points[after].ArcMm - arcMm ? after - 1 : after;
    }

    /// <summary>Where the metal of a place of the baseline stands today, in the baseline's frame; a loss that is missing counts as none.</summary>
    /// <param name="baseline">The as-new outline.</param>
    /// <param name="sample">Measured on it.</param>
    /// <param name="magnification">Of the loss.</param>
    public static Vector2 Landing(Outline baseline, EdgeLossSample sample, double magnification = 1)
    {
        OutlinePoint p = baseline.Points[IndexAt(baseline, sample.ArcMm)];
        double lossMm = (sample.LossUm.Measured?.Value ?? 0) / 1000 * magnification;
        return new Vector2(p.Position.XMm, p.Position.ZMm) + lossMm * p.Inward;
    }
}
