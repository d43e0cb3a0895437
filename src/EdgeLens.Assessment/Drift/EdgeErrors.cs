using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Drift;

/// <summary>An error that displaces the whole outline in a known pattern by an unknown amount.</summary>
/// <param name="Name">For the uncertainty budget.</param>
/// <param name="Amount">What is known of the amount beforehand.</param>
/// <param name="DisplacementMm">Of today's outline against the baseline, along the inward normal, per unit of the amount.</param>
/// <param name="IsOfAsNew">True when it comes from the as-new photograph alone.</param>
internal sealed record ErrorPattern(string Name, Measured Amount, Func<EdgePlace, double> DisplacementMm, bool IsOfAsNew = false);

/// <summary>
/// How today's outline may be displaced against the baseline's without any metal lost: patterns of unknown amount (scale, a face that is not
/// parallel to the card, the neck's height) and errors that vary along the edge (noise, light on the edge).
/// </summary>
/// <remarks>
/// The face's plane and parallax: a point at height h over the plane appears at p + h·s(p) with the view slope s(p) = s0 + (p - p0) / D at
/// camera distance D. A pitch adds h = pitch·z, a bank h = bank·x; the neck leaves the plane as h = climb·d² at d behind the heel, the same in
/// both photographs, so that only the difference of their slopes shows.
/// </remarks>
internal sealed class EdgeErrors
{
    private readonly DriftOptions _options;
    private readonly Measured _climb;
    private readonly double _referenceEndZMm, _neckSlope;
    private readonly Vector2? _slopeChange;

    public EdgeErrors(FaceMeasurement baseline, FaceMeasurement today, Similarity baselineFromToday, Vector2 pivot, double referenceEndZMm, DriftOptions options)
    {
        (_options, _referenceEndZMm, Pivot) = (options, referenceEndZMm, pivot);
        Measured parallel = new(0, Quadrature.FromLimits(options.FaceParallelLimitDeg * Math.PI / 180));
        _climb = FamilyTraits.Of(baseline.Family).TipCuts ? options.TipCuttingNeckClimbPerMm : options.NeckClimbPerMm;
        ScaleParts = [.. ScaleRatio.Of(baseline.Scale, today.Scale)];
        ScaleUncertainty = ScaleRatio.StandardUncertainty(baseline.Scale, today.Scale);
        Scale = new("scale of the two photographs", new(0, ScaleUncertainty), p => p.Inward.Dot(p.Position - pivot));
        List<ErrorPattern> patterns =
        [
            new("offset of the as-new outline", new(0, options.CommonEdgeErrorUm / 1000), _ => 1, IsOfAsNew: true),
            new("offset of today's outline", new(0, options.CommonEdgeErrorUm / 1000), _ => 1),
        ];

        Vector2? slopeA = baseline.Scale.ViewSlope is { } a ? baseline.Outline.BladeFromCard.Turn(a) : null;
        Vector2? slopeB = today.Scale.ViewSlope is { } b ? baselineFromToday.Turn(today.Outline.BladeFromCard.Turn(b)) : null;
        foreach ((FaceMeasurement view, Vector2? slope, string which) in new[] { (baseline, slopeA, "as-new"), (today, slopeB, "today's") })
        {
            double distance = view.Scale.DistanceMm.Value;
            foreach (Vector2 s0 in SlopesOf(view, slope))
            {
                Vector2 At(EdgePlace p) => s0 + 1 / distance * (p.Position - pivot);
                patterns.Add(new($"pitch of the face in the {which} photograph", parallel, p => p.Position.Y * p.Inward.Dot(At(p)), ReferenceEquals(view, baseline)));
                patterns.Add(new($"bank of the face in the {which} photograph", parallel, p => p.Position.X * p.Inward.Dot(At(p)), ReferenceEquals(view, baseline)));
            }
        }
        if (slopeA is { } sa && slopeB is { } sb)
        {
            Vector2 shift = sb - sa;
            patterns.Add(new("height of the neck", _climb, p => Behind(p) * Behind(p) * p.Inward.Dot(shift)));
            patterns.Add(new("height of the neck, left against right", new(0, options.NeckClimbUnevenPerMm), p => Math.Sign(p.Position.X) * Behind(p) * Behind(p) * p.Inward.Dot(shift)));
            // h = c (d + δ)² changes by 2 c d δ.
            patterns.Add(new("place where the neck begins", new(0, options.NeckBeginsAheadMm.StandardUncertainty), p => 2 * _climb.Value * Behind(p) * p.Inward.Dot(shift)));
            _slopeChange = shift;
        }
        else
        {
            _neckSlope = Quadrature.Sum(TanTilt(baseline), TanTilt(today));
            Measured sd = new(0, Quadrature.Sum(_climb.Value, _climb.StandardUncertainty) * _neckSlope / Math.Sqrt(2));
            patterns.Add(new("height of the neck, across", sd, p => Behind(p) * Behind(p) * p.Inward.X));
            patterns.Add(new("height of the neck, along", sd, p => Behind(p) * Behind(p) * p.Inward.Y));
        }
        Patterns = patterns;
    }

    /// <summary>Turn and scale are about this point, the middle of the reference.</summary>
    public Vector2 Pivot { get; }

    /// <summary>Relative standard uncertainty of the ratio of the two photographs' scales.</summary>
    public double ScaleUncertainty { get; }

    /// <summary>Where that comes from.</summary>
    public IReadOnlyList<UncertaintyContribution> ScaleParts { get; }

    /// <summary>The pattern of an error in that ratio.</summary>
    public ErrorPattern Scale { get; }

    /// <summary>The other patterns.</summary>
    public IReadOnlyList<ErrorPattern> Patterns { get; }

    /// <summary>
    /// Covariance of what only the reference suffers, mm²: wear that runs out towards the heel, and the neck's height beyond its smooth climb. Both change
    /// smoothly along the edge.
    /// </summary>
    /// <param name="a">On the reference.</param>
    /// <param name="b">Likewise.</param>
    public double OfReference(EdgePlace a, EdgePlace b) =>
        (Wear(a) * Wear(b) + Climb(a) * Climb(b) * Parallax(a, b)) * Math.Exp(-Math.Abs(a.ArcMm - b.ArcMm) / _options.ReferenceReachMm);

    private double Wear(EdgePlace p)
    {
        double ramp = Math.Max(0, 2 * p.Position.Y / _referenceEndZMm - 1);
        return (_options.WearOfReferenceUm + _options.WearAtReferenceEndUm * ramp * ramp) / 1000;
    }

    private double Climb(EdgePlace p) => _options.NeckClimbScatter * Quadrature.Sum(_climb.Value, _climb.StandardUncertainty) * Behind(p) * Behind(p);

    private double Parallax(EdgePlace a, EdgePlace b) =>
        _slopeChange is { } shift ? a.Inward.Dot(shift) * b.Inward.Dot(shift) : a.Inward.Dot(b.Inward) * _neckSlope * _neckSlope / 2;

    private double Behind(EdgePlace p) => Math.Max(0, _options.NeckBeginsAheadMm.Value - p.Position.Y);

    private static double TanTilt(FaceMeasurement view) =>
        Math.Tan(Quadrature.Sum(view.Scale.TiltDeg.Value, view.Scale.TiltDeg.StandardUncertainty) * Math.PI / 180);

    // Tilt known, its direction not: both directions with their share.
    private static Vector2[] SlopesOf(FaceMeasurement view, Vector2? slope) =>
        slope is { } s ? [s] : [new(TanTilt(view) / Math.Sqrt(2), 0), new(0, TanTilt(view) / Math.Sqrt(2))];
}
