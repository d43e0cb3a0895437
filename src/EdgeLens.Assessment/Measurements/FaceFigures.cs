using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Measurements;

/// <summary>The measurands of the face view that the outline alone gives.</summary>
/// <param name="ApexZMm">Where the outline ends, from a circle through its foremost 30° either side: the farthest single point lies too far out by the noise's crest.</param>
/// <param name="Widths">At 0.5, 1.0, 1.5 ... mm back from the station origin, as far as the blade reaches.</param>
/// <param name="ToeRadiusUm">Curettes.</param>
/// <param name="TipWidthUm">Scalers.</param>
/// <param name="TipArcRadiusMm">Luxators, elevators.</param>
/// <param name="Nicks">Of the cutting edges.</param>
/// <param name="Parts">One per outline point.</param>
public sealed record FaceFigures(
    Measured ApexZMm, ImmutableArray<StationWidth> Widths, Figure ToeRadiusUm, Figure TipWidthUm, Figure TipArcRadiusMm, ImmutableArray<Nick> Nicks, ImmutableArray<EdgePart> Parts)
{
    /// <summary>Spacing of the stations (measurands.md).</summary>
    public const double StationStepMm = 0.5;

    /// <summary>Distance of the tip width from the apex (measurands.md).</summary>
    public const double TipWidthAtMm = 0.25;

    /// <summary>Part of the tip edge on either side of the apex that the tip arc's radius is taken over: the middle 70 % (measurands.md).</summary>
    public const double TipArcHalfShare = 0.35;

    /// <summary>
    /// By how much the arc is lengthened and shortened to see what its length does to its radius: as much as stays on the tip edge (1.25 · 70 % = 88 %), because
    /// the difference of two noisy radii is sure only over a long lever.
    /// </summary>
    private const double EndsShare = 0.25;

    /// <summary>Half angle of the arc that gives the apex, at most; short enough for a toe that is not quite round, long enough to average over the noise.</summary>
    private const double ApexHalfAngleDeg = 30;

    /// <summary>Half length of that arc at most: on an elevator's elliptic end (semi-axes 1.6 and 1.2 mm) a circle through ±0.5 mm ends 0.05 µm off, through ±1.1 mm 1.1 µm.</summary>
    private const double ApexHalfArcMm = 0.5;

    /// <summary>Measures an outline.</summary>
    /// <param name="outline">In its frame.</param>
    /// <param name="traits">Decides which figures make sense.</param>
    /// <param name="relativeScaleUncertainty">Relative standard uncertainty of every length.</param>
    /// <param name="stationOriginZMm">The as-new apex in this outline's frame with the standard uncertainty of the registration; null: this outline's own apex.</param>
    /// <param name="noise">How the points' errors hang together.</param>
    public static FaceFigures Measure(Outline outline, FamilyTraits traits, double relativeScaleUncertainty, Measured? stationOriginZMm, OutlineNoise noise)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(relativeScaleUncertainty);
        Measured apex = Apex(outline, noise);
        Outcome<ToeCircle> toe = ToeCircle.Fit(outline);
        ImmutableArray<NickFinder.Gap> gaps = NickFinder.Find(outline, traits.TipCuts ? TipEdge.ReachMm(outline) : double.PositiveInfinity, noise);
        Outcome<TipEdge>? tip = traits.TipCuts ? TipEdge.Find(outline, NickFinder.Fill(outline, gaps)) : null;
        ImmutableArray<EdgePart> parts = PartsOf(outline, toe, tip);
        return new(
            apex,
            StationWidths(outline, stationOriginZMm ?? apex, relativeScaleUncertainty, noise),
            ToeRadius(outline, traits, toe, relativeScaleUncertainty, noise),
            TipWidth(outline, traits, apex, relativeScaleUncertainty, noise),
            tip is null ? Figure.Missing($"A {traits.Title} has no tip arc.") : TipArcRadius(outline, tip, relativeScaleUncertainty, noise),
            NicksOf(outline, traits, parts, gaps, stationOriginZMm ?? apex, relativeScaleUncertainty),
            parts);
    }

    /// <summary>A tip too fine for a circle (a scaler's 40 µm has some five points within 30°) ends at its farthest point.</summary>
    private static Measured Apex(Outline outline, OutlineNoise noise)
    {
        Outcome<ToeCircle> cap = ToeCircle.Fit(outline, ApexHalfAngleDeg);
        if (cap.TryGet(out ToeCircle? wide, out _) && ApexHalfArcMm / wide.Circle.Radius < ApexHalfAngleDeg * Math.PI / 180)
            cap = ToeCircle.Fit(outline, ApexHalfArcMm / wide.Circle.Radius * 180 / Math.PI);
        return cap.TryGet(out ToeCircle? circle, out _)
            ? circle.ForemostZMm(outline, noise)
            : new(outline.Apex.Position.ZMm, Quadrature.Sum(outline.Apex.StandardUncertaintyUm, noise.SystematicSdUm) / 1000);
    }

    private static ImmutableArray<StationWidth> StationWidths(Outline outline, Measured origin, double scale, OutlineNoise noise)
    {
        ImmutableArray<StationWidth>.Builder widths = ImmutableArray.CreateBuilder<StationWidth>();
        // The blade ends at z = 0; a station whose window would reach over it is not one of the blade's.
        for (int k = 1; origin.Value - k * StationStepMm >= EdgeCrossing.HalfWindowMm; k++)
        {
            double z = origin.Value - k * StationStepMm;
            if (EdgeCrossing.Extent(outline, z, origin.StandardUncertainty, noise) is { } width)
                widths.Add(new(k * StationStepMm, width.WithAdded(scale * width.Value), width.StandardUncertainty));
        }
        return widths.ToImmutable();
    }

    private static Figure ToeRadius(Outline outline, FamilyTraits traits, Outcome<ToeCircle> toe, double scale, OutlineNoise noise)
    {
        if (traits.TipCuts || traits.HasPointedTip) return Figure.Missing($"A {traits.Title} has no rounded toe.");
        if (!toe.TryGet(out ToeCircle? circle, out Refusal? refusal)) return Figure.Missing(refusal.Reason + ".");
        double radius = circle.Circle.Radius;
        return new Measured(radius, Quadrature.Sum(circle.RadiusUncertaintyMm(outline, noise), scale * radius)).Scale(1000);
    }

    private static Figure TipWidth(Outline outline, FamilyTraits traits, Measured apex, double scale, OutlineNoise noise)
    {
        if (!traits.HasPointedTip) return Figure.Missing($"A {traits.Title} has no pointed tip.");
        return EdgeCrossing.Extent(outline, apex.Value - TipWidthAtMm, apex.StandardUncertainty, noise) is { } width
            ? width.WithAdded(scale * width.Value).Scale(1000)
            : Figure.Missing("The outline is not seen on both sides of the tip.");
    }

    private static Figure TipArcRadius(Outline outline, Outcome<TipEdge> tip, double scale, OutlineNoise noise)
    {
        if (!tip.TryGet(out TipEdge? edge, out Refusal? refusal)) return Figure.Missing(refusal.Reason + ".");
        double half = TipArcHalfShare * edge.LengthMm;
        if (!Fit(half).TryGet(out FittedCircle? circle, out refusal)) return Figure.Missing(refusal.Reason + ".");
        // The tip is no circle, so its radius depends on where the corners are set.
        double perMm = Fit((1 + EndsShare) * half).TryGet(out FittedCircle? wide, out _) && Fit((1 - EndsShare) * half).TryGet(out FittedCircle? narrow, out _)
            ? Quadrature.Sum(wide.Radius - circle.Radius, circle.Radius - narrow.Radius) / (Math.Sqrt(2) * EndsShare * edge.LengthMm)
            : 0;
        (int from, int to) = Within(half);
        double[] weights = new double[to - from];
        for (int i = from; i < to; i++)
            weights[i - from] = circle.Sensitivities[i - from].Radius * (Place(outline.Points[i]) - circle.Centre).Unit.Dot(outline.Points[i].Inward);
        double local = noise.Propagate(outline.Points.AsSpan()[from..to], weights);
        return new Measured(circle.Radius, Quadrature.Sum(local, perMm * edge.LengthStandardUncertaintyMm, scale * circle.Radius));

        Outcome<FittedCircle> Fit(double halfLength)
        {
            (int a, int b) = Within(halfLength);
            return LeastDistanceCircle.Fit([.. outline.Points.AsSpan()[a..b].ToArray().Select(Place)]);
        }

        (int From, int To) Within(double halfLength)
        {
            int a = outline.ApexIndex, b = a + 1;
            while (a > 0 && outline.Apex.ArcMm - outline.Points[a - 1].ArcMm < halfLength) a--;
            while (b < outline.Points.Length && outline.Points[b].ArcMm - outline.Apex.ArcMm < halfLength) b++;
            return (a, b);
        }
    }

    private static ImmutableArray<Nick> NicksOf(
        Outline outline, FamilyTraits traits, ImmutableArray<EdgePart> parts, ImmutableArray<NickFinder.Gap> gaps, Measured origin, double scale) =>
    [
        .. from gap in gaps
           let part = parts[gap.Deepest]
           let place = outline.Points[gap.Deepest]
           // The outline goes on to the shank's root, which does not cut.
           where part == EdgePart.Toe || (!traits.TipCuts && place.Position.ZMm >= 0)
           select new Nick(part, origin.Value - place.Position.ZMm, place.ArcMm, gap.DepthUm.WithAdded(scale * gap.DepthUm.Value), gap.LengthMm.WithAdded(scale * gap.LengthMm.Value)),
    ];

    private static ImmutableArray<EdgePart> PartsOf(Outline outline, Outcome<ToeCircle> toe, Outcome<TipEdge>? tip)
    {
        Func<OutlinePoint, int, bool> isToe = (_, i) => i == outline.ApexIndex;
        if (tip is not null && tip.TryGet(out TipEdge? edge, out _))
            isToe = (p, _) => p.ArcMm >= edge.LeftCornerArcMm.Value && p.ArcMm <= edge.RightCornerArcMm.Value;
        else if (toe.TryGet(out ToeCircle? circle, out _))
            isToe = (_, i) => i >= circle.FirstIndex && i <= circle.LastIndex;
        return [.. outline.Points.Select((p, i) => isToe(p, i) ? EdgePart.Toe : i < outline.ApexIndex ? EdgePart.Left : EdgePart.Right)];
    }

    private static Vector2 Place(OutlinePoint p) => new(p.Position.XMm, p.Position.ZMm);
}
