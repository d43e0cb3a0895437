using System.Collections.Immutable;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;

namespace EdgeLens.Assessment.Drift;

/// <summary>What sharpening can do to the form.</summary>
public enum ShapeFault
{
    /// <summary>The toe's shoulders were ground more than its end: a curette turns into a scaler.</summary>
    PointedToe,

    /// <summary>A hollow in an edge: the middle was ground more than its ends.</summary>
    Hollow,

    /// <summary>One edge was ground more than the other.</summary>
    OneSided,

    /// <summary>One end of an edge was ground more than the other end.</summary>
    Tapered,
}

/// <summary>A fault of form that is clear of its uncertainty.</summary>
/// <param name="Fault">Which.</param>
/// <param name="Part">Edge; null where both or the toe are meant.</param>
/// <param name="Where">Stretch along the edge; null where the whole edge is meant.</param>
/// <param name="AmountUm">How much more was taken there than beside it.</param>
/// <param name="Words">In one sentence, with what to do.</param>
public sealed record ShapeFinding(ShapeFault Fault, EdgePart? Part, Stretch? Where, Measured AmountUm, string Words);

/// <summary>Names what the loss along the edges says about the grinding.</summary>
public static class ShapeFindings
{
    /// <summary>Less than the least nick that is told from an edge's own waviness (measurands.md) is no fault of form, µm.</summary>
    public const double LeastUm = 20;

    // A toe's radius may shrink by the loss itself; smaller than three quarters of that is a point and not a smaller toe.
    private const double PointedShare = 0.75;

    // The end of a toe: its normal within 15° of the axis; its shoulders: 35 to 65°.
    private static readonly double EndCosine = Math.Cos(15 * Math.PI / 180), ShoulderToCosine = Math.Cos(35 * Math.PI / 180), ShoulderFromCosine = Math.Cos(65 * Math.PI / 180);

    // A hollow is told against its flanks: windows of half a millimetre, as for the greatest reflection width.
    private const double WindowMm = 0.5;
    private const double LeastEdgeMm = 1.5;

    // Its flanks lie beside it on either side: near enough to tell a hollow from a taper, far enough to lie outside a hollow of a millimetre. At least 0.4 mm of each (samples every 0.05 mm).
    private const double FlankFromMm = 0.6, FlankToMm = 1.4;
    private const int LeastFlank = 8;

    /// <summary>The faults, the largest first.</summary>
    /// <param name="baseline">As-new.</param>
    /// <param name="today">Today.</param>
    /// <param name="drift">Between them.</param>
    /// <remarks>
    /// All figures are differences of losses on one outline, in which offset and most of the registration's error cancel; their uncertainties are those of the losses in
    /// quadrature, which is more, so that a fault that is named is there.
    /// </remarks>
    public static ImmutableArray<ShapeFinding> Of(FaceMeasurement baseline, FaceMeasurement today, DriftMeasurement drift)
    {
        ArgumentNullException.ThrowIfNull(baseline);
        ArgumentNullException.ThrowIfNull(today);
        ArgumentNullException.ThrowIfNull(drift);
        FamilyTraits traits = FamilyTraits.Of(baseline.Family);
        List<ShapeFinding> found = [];
        if (!traits.TipCuts && !traits.HasPointedTip && PointedToe(baseline, today, drift) is { } pointed) found.Add(pointed);
        EdgePart[] edges = traits.TipCuts ? [EdgePart.Toe] : [EdgePart.Left, EdgePart.Right];
        Place[][] losses = [.. edges.Select(e => Along(drift, e))];
        for (int i = 0; i < edges.Length; i++)
        {
            if (Hollow(edges[i], losses[i], baseline.Family) is { } hollow) found.Add(hollow);
            if (!traits.TipCuts && Tapered(edges[i], losses[i], baseline.Family) is { } tapered) found.Add(tapered);
        }
        // An area-specific curette is ground on one edge only: there a difference is right.
        if (edges.Length == 2 && baseline.Family != InstrumentFamily.AreaSpecificCurette && OneSided(losses) is { } sided) found.Add(sided);
        return [.. found.OrderByDescending(f => f.AmountUm.Value)];
    }

    private readonly record struct Place(double ArcMm, double StationMm, double LossUm, double U);

    // Only ahead of the heel half: behind it grinding runs out, as it should.
    private static Place[] Along(DriftMeasurement drift, EdgePart part)
    {
        Place[] all = [.. drift.EdgeLoss.Where(s => s.Part == part && s.LossUm.Measured is not null).Select(s => new Place(s.ArcMm, s.StationMm, s.LossUm.Measured!.Value.Value, s.LossUm.Measured!.Value.StandardUncertainty))];
        double reach = all.Length == 0 ? 0 : 0.6 * all.Max(p => p.StationMm);
        return [.. (part == EdgePart.Toe ? all : all.Where(p => p.StationMm <= reach)).OrderBy(p => p.ArcMm)];
    }

    private static ShapeFinding? PointedToe(FaceMeasurement baseline, FaceMeasurement today, DriftMeasurement drift)
    {
        if (baseline.ToeRadiusUm.Measured is not { } was || today.ToeRadiusUm.Measured is not { } now || drift.LengthLossUm.Measured is not { } length) return null;
        // A toe ground evenly by w has its radius smaller by w.
        double expected = PointedShare * (was.Value - Math.Max(0, length.Value));
        Measured lack = new(expected - now.Value, Quadrature.Sum(PointedShare * was.StandardUncertainty, now.StandardUncertainty, PointedShare * length.StandardUncertainty));
        bool isSmall = lack.Value - lack.ExpandedUncertainty > 0;
        if (!isSmall && (Shoulders(baseline, today, drift, length.StandardUncertainty) is not { Value: > 0 } more || !IsClear(more))) return null;
        Measured amount = new(was.Value - now.Value, Quadrature.Sum(was.StandardUncertainty, now.StandardUncertainty));
        return new(ShapeFault.PointedToe, EdgePart.Toe, null, amount,
            $"The toe has become pointed: its radius is {FigureText.WithUncertainty(now, "µm")}, as-new {FigureText.WithUncertainty(was, "µm")}. Follow the edge round the toe with the stone and keep its curve; a pointed toe injures tissue.");
    }

    /// <summary>
    /// How much more the toe's shoulders lost than its end, both sides together so that a sideways error of the registration cancels. One along the axis, δ, counts at the end in full and
    /// at a shoulder whose normal is turned by φ with cos φ: (1 - cos φ) δ is left of it.
    /// </summary>
    private static Measured? Shoulders(FaceMeasurement baseline, FaceMeasurement today, DriftMeasurement drift, double lengthStandardUncertaintyUm)
    {
        List<double> end = [], left = [], right = [], cosines = [];
        foreach (EdgeLossSample sample in drift.EdgeLoss)
        {
            if (sample.LossUm.Measured is not { } loss) continue;
            OutlinePoint place = baseline.Outline.Points.MinBy(p => Math.Abs(p.ArcMm - sample.ArcMm));
            double cosine = -place.Inward.Y;
            if (cosine > EndCosine) end.Add(loss.Value);
            else if (cosine > ShoulderFromCosine && cosine < ShoulderToCosine)
            {
                (place.Position.XMm > 0 ? left : right).Add(loss.Value);
                cosines.Add(cosine);
            }
        }
        if (end.Count == 0 || left.Count == 0 || right.Count == 0) return null;
        double own = Quadrature.Sum(OfToe(baseline.Outline), OfToe(today.Outline));
        return new((left.Average() + right.Average()) / 2 - end.Average(), Quadrature.Sum((1 - cosines.Average()) * lengthStandardUncertaintyUm, own));

        static double OfToe(Outline outline) => outline.Points.Where(p => -p.Inward.Y > ShoulderFromCosine).Average(p => p.StandardUncertaintyUm);
    }

    private static ShapeFinding? Hollow(EdgePart edge, Place[] places, InstrumentFamily family)
    {
        if (places.Length < 10 || places[^1].ArcMm - places[0].ArcMm < LeastEdgeMm) return null;
        Place deepest = default;
        double most = double.NegativeInfinity;
        StraightLine? beside = null;
        foreach (Place p in places)
        {
            Place[] before = [.. places.Where(q => p.ArcMm - q.ArcMm is >= FlankFromMm and <= FlankToMm)], after = [.. places.Where(q => q.ArcMm - p.ArcMm is >= FlankFromMm and <= FlankToMm)];
            if (before.Length < LeastFlank || after.Length < LeastFlank) continue;
            Place[] flanks = [.. before, .. after];
            if (!StraightLine.Fit([.. flanks.Select(q => q.ArcMm)], [.. flanks.Select(q => q.LossUm)]).TryGet(out StraightLine? line, out _)) continue;
            double depth = places.Where(q => Math.Abs(q.ArcMm - p.ArcMm) <= WindowMm / 2).Average(q => q.LossUm - line.At(q.ArcMm));
            if (depth > most) (most, deepest, beside) = (depth, p, line);
        }
        if (beside is null) return null;
        Measured amount = new(most, Math.Sqrt(2) * deepest.U);
        if (!IsClear(amount)) return null;
        Place[] within = [.. places.Where(p => Math.Abs(p.ArcMm - deepest.ArcMm) < FlankFromMm && p.LossUm - beside.At(p.ArcMm) > most / 2)];
        Stretch where = new(within.Min(p => p.StationMm), within.Max(p => p.StationMm));
        return new(ShapeFault.Hollow, edge, where, amount,
            $"A hollow of {FigureText.WithUncertainty(amount, "µm")} is ground into the {PlaceText.Name(edge, family)}, {PlaceText.From(where, family)}: use long strokes over the whole edge and leave the hollow out until the rest has caught up.");
    }

    private static ShapeFinding? Tapered(EdgePart edge, Place[] places, InstrumentFamily family)
    {
        if (places.Length < 10 || places[^1].ArcMm - places[0].ArcMm < LeastEdgeMm) return null;
        Place[] byStation = [.. places.OrderBy(p => p.StationMm)];
        Place[] front = byStation[..(places.Length / 3)], back = byStation[^(places.Length / 3)..];
        Measured amount = Difference(front, back);
        if (!IsClear(amount)) return null;
        string more = amount.Value > 0 ? $"towards the {PlaceText.EndOf(family)}" : "towards the heel";
        return new(ShapeFault.Tapered, edge, null, Size(amount),
            $"The {PlaceText.Name(edge, family)} is ground unevenly: {FigureText.WithUncertainty(Size(amount), "µm")} more {more}. Begin the stroke at the heel and keep the pressure even to the {PlaceText.EndOf(family)}.");
    }

    private static ShapeFinding? OneSided(Place[][] losses)
    {
        if (losses.Any(l => l.Length < 10)) return null;
        Measured amount = Difference(losses[0], losses[1]);
        if (!IsClear(amount)) return null;
        EdgePart more = amount.Value > 0 ? EdgePart.Left : EdgePart.Right;
        return new(ShapeFault.OneSided, more, null, Size(amount),
            $"The edges are ground unevenly: the {(more == EdgePart.Left ? "left" : "right")} one has lost {FigureText.WithUncertainty(Size(amount), "µm")} more. Give both edges the same strokes, the other one first.");
    }

    // Losses along one stretch share most of their error: the mean is taken to be as uncertain as one of them.
    private static Measured Difference(Place[] a, Place[] b) => new(a.Average(p => p.LossUm) - b.Average(p => p.LossUm), Quadrature.Sum(a.Average(p => p.U), b.Average(p => p.U)));

    private static Measured Size(Measured m) => new(Math.Abs(m.Value), m.StandardUncertainty);

    private static bool IsClear(Measured amount) => Math.Abs(amount.Value) >= LeastUm && Math.Abs(amount.Value) > amount.ExpandedUncertainty;
}
