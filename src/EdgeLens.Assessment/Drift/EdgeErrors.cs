using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Drift;

/// <summary>An error that displaces the whole outline in a known pattern by an unknown amount.</summary>
/// <param name="Name">For the uncertainty budget.</param>
/// <param name="StandardUncertainty">Of the amount.</param>
/// <param name="DisplacementMm">Of today's outline against the baseline, along the inward normal, per unit of the amount.</param>
internal sealed record ErrorPattern(string Name, double StandardUncertainty, Func<EdgePlace, double> DisplacementMm);

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
    private readonly double _neckSlope;

    public EdgeErrors(FaceMeasurement baseline, FaceMeasurement today, Similarity baselineFromToday, Vector2 pivot, DriftOptions options)
    {
        _options = options;
        double parallel = Quadrature.FromLimits(options.FaceParallelLimitDeg * Math.PI / 180);
        ScaleUncertainty = Quadrature.Sum(baseline.Scale.RelativeStandardUncertainty, today.Scale.RelativeStandardUncertainty);
        Scale = new("scale of the two photographs", ScaleUncertainty, p => p.Inward.Dot(p.Position - pivot));
        List<ErrorPattern> patterns = [new("offset of the outlines", Math.Sqrt(2) * options.CommonEdgeErrorUm / 1000, _ => 1)];

        Vector2? slopeA = baseline.Scale.ViewSlope is { } a ? baseline.Outline.BladeFromCard.Turn(a) : null;
        Vector2? slopeB = today.Scale.ViewSlope is { } b ? baselineFromToday.Turn(today.Outline.BladeFromCard.Turn(b)) : null;
        foreach ((FaceMeasurement view, Vector2? slope, string which) in new[] { (baseline, slopeA, "as-new"), (today, slopeB, "today's") })
        {
            double distance = view.Scale.DistanceMm.Value;
            foreach (Vector2 s0 in SlopesOf(view, slope))
            {
                Vector2 At(EdgePlace p) => s0 + 1 / distance * (p.Position - pivot);
                patterns.Add(new($"pitch of the face in the {which} photograph", parallel, p => p.Position.Y * p.Inward.Dot(At(p))));
                patterns.Add(new($"bank of the face in the {which} photograph", parallel, p => p.Position.X * p.Inward.Dot(At(p))));
            }
        }
        if (slopeA is { } sa && slopeB is { } sb)
        {
            Vector2 shift = sb - sa;
            patterns.Add(new("height of the neck", options.NeckClimbPerMm, p => Behind(p) * Behind(p) * p.Inward.Dot(shift)));
            _neckSlope = shift.Length;
        }
        else
        {
            _neckSlope = Quadrature.Sum(TanTilt(baseline), TanTilt(today));
            double sd = options.NeckClimbPerMm * _neckSlope / Math.Sqrt(2);
            patterns.Add(new("height of the neck, across", sd, p => Behind(p) * Behind(p) * p.Inward.X));
            patterns.Add(new("height of the neck, along", sd, p => Behind(p) * Behind(p) * p.Inward.Y));
        }
        Patterns = patterns;
    }

    /// <summary>Relative standard uncertainty of the ratio of the two photographs' scales.</summary>
    public double ScaleUncertainty { get; }

    /// <summary>The pattern of an error in that ratio.</summary>
    public ErrorPattern Scale { get; }

    /// <summary>The other patterns.</summary>
    public IReadOnlyList<ErrorPattern> Patterns { get; }

    /// <summary>Covariance of both outlines' noise between two places, mm².</summary>
    /// <param name="a">Standard uncertainty there from both photographs.</param>
    /// <param name="b">The other place, likewise.</param>
    public double Noise(EdgePlace a, EdgePlace b) =>
        a.StandardUncertaintyMm * b.StandardUncertaintyMm * Math.Exp(-Math.Abs(a.ArcMm - b.ArcMm) / _options.NoiseReachMm);

    /// <summary>Covariance of one photograph's slowly varying edge error between two places, mm².</summary>
    public double Slow(EdgePlace a, EdgePlace b) =>
        _options.SlowEdgeErrorUm * _options.SlowEdgeErrorUm * 1e-6 * Math.Exp(-Math.Abs(a.ArcMm - b.ArcMm) / _options.SlowEdgeErrorReachMm);

    /// <summary>Variance of what the reference itself may have lost or hidden at a place, mm²: independent from place to place.</summary>
    /// <param name="place">On the reference.</param>
    /// <param name="referenceEndZMm">Where it ends.</param>
    public double ReferenceVariance(EdgePlace place, double referenceEndZMm)
    {
        double ramp = Math.Max(0, 2 * place.Position.Y / referenceEndZMm - 1), behind = Behind(place);
        double wear = _options.WearOfReferenceUm / 1000 + _options.WearAtReferenceEndUm / 1000 * ramp * ramp;
        double neck = _options.NeckClimbScatter * _options.NeckClimbPerMm * behind * behind * _neckSlope;
        return wear * wear + neck * neck;
    }

    private static double Behind(EdgePlace p) => Math.Max(0, -p.Position.Y);

    private static double TanTilt(FaceMeasurement view) =>
        Math.Tan(Quadrature.Sum(view.Scale.TiltDeg.Value, view.Scale.TiltDeg.StandardUncertainty) * Math.PI / 180);

    // Tilt known, its direction not: both directions with their share.
    private static Vector2[] SlopesOf(FaceMeasurement view, Vector2? slope) =>
        slope is { } s ? [s] : [new(TanTilt(view) / Math.Sqrt(2), 0), new(0, TanTilt(view) / Math.Sqrt(2))];
}
