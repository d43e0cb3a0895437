using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace EdgeLens.Assessment.Drift;

/// <summary>
/// Today's outline laid on the baseline over what does not wear: generalised least squares of the distances along the baseline's normals, in
/// shift, turn and scale, the scale held by its prior.
/// </summary>
/// <remarks>
/// Distances d (today's outline inside the baseline, mm) change by J·δ when today's outline moves by δ = (shift x, shift z, turn, relative scale);
/// Gauss-Newton: (JᵀC⁻¹J + P) δ = -(JᵀC⁻¹ d + P·current), P = 1/u² for the scale's logarithm and 0 else (Bayes with a normal prior). C holds every error
/// of <see cref="EdgeErrors"/> on the reference with its correlation, so that what could be parallax or light is not taken for a shift. A displacement e of
/// the outline makes the error -A e of the parameters, A = (JᵀC⁻¹J + P)⁻¹ JᵀC⁻¹: all uncertainty of drift passes through A.
/// Steel only wears: what is left of a distance beyond two standard deviations, after the patterns' best guess is taken off it, loses weight with its
/// square inwards (metal gone) and with its size outwards (dirt).
/// </remarks>
internal sealed class OutlineRegistration
{
    private const int CoarseIterations = 8, MostIterations = 40;

    // Shift, turn and scale need a few places on either side; fewer than 0.4 mm of edge is no reference.
    private const int FewestPerSide = 8;

    // The heel's form alone tells the shift along z only roughly, and not better than the neck's height is known: a landmark is believed up to here.
    private const double GreatestOffSigmas = 5;

    // How far apart the outlines may lie along a normal: the heel is found within some tenths of a millimetre.
    private const double ReachMm = 0.5;

    private OutlineRegistration(ReferenceErrors reference, FitResult fit)
    {
        Reference = reference;
        (BaselineFromToday, Gain, OwnCovariance, ResidualMm, FaceEndGain) = (fit.Map, fit.Gain, fit.Own, fit.ResidualMm, fit.FaceEndGain);
    }

    public Similarity BaselineFromToday { get; }

    /// <summary>Places and errors of the reference.</summary>
    public ReferenceErrors Reference { get; }

    /// <summary>4 x places: A above.</summary>
    public Matrix<double> Gain { get; }

    /// <summary>Covariance of what only the reference suffers (wear, the neck, down-weighted outliers), mm².</summary>
    public Matrix<double> OwnCovariance { get; }

    /// <summary>Root mean square of the weighted distances left, mm.</summary>
    public double ResidualMm { get; }

    /// <summary>What an error of the end of the face along z does to the four parameters; zero where it is not seen in both photographs.</summary>
    public Vector<double> FaceEndGain { get; }

    /// <summary>The best fit.</summary>
    /// <param name="reference">Places and errors.</param>
    /// <param name="offsetsMm">Where the baseline's own averaged line lies at these places, inwards.</param>
    /// <param name="today">In its own frame.</param>
    /// <param name="starts">First guesses of baseline-from-today.</param>
    /// <param name="unlikely">What else speaks against a registration, as a squared number of standard deviations: it helps to choose among the starts.</param>
    /// <param name="options">Assumptions.</param>
    /// <returns>The registration, or the refusal: too little of the reference seen, or it does not fit.</returns>
    public static Outcome<OutlineRegistration> Find(
        ReferenceErrors reference, double[] offsetsMm, OutlineCurve today, IEnumerable<Similarity> starts, Func<Similarity, double> unlikely, DriftOptions options)
    {
        // Each start is first tried with independent errors, which is quick; the best one is then fitted with the full covariance.
        ReferenceErrors independent = reference.Independent() with { FaceEnd = null };
        Similarity? best = null;
        double least = double.PositiveInfinity;
        foreach (Similarity start in starts)
        {
            if (Fit(independent, offsetsMm, today, start, CoarseIterations, options) is not { } coarse) continue;
            double cost = coarse.Cost + unlikely(coarse.Map);
            if (cost < least) (best, least) = (coarse.Map, cost);
        }
        if (best is { } guess) (reference, offsetsMm) = AsSeen(reference, offsetsMm, today, guess, options);
        if (best is null || reference.Places.Count(p => p.Position.X > 0) < FewestPerSide || reference.Places.Count(p => p.Position.X < 0) < FewestPerSide
            || FitWithFaceEnd(reference, offsetsMm, today, best.Value, options) is not { Fit: var fit, Errors: var used })
            return new Refusal("reference-not-seen", "Too little of the heel is seen in both photographs to lay today's outline on the as-new one.",
                "Retake the photograph with the whole blade and the first millimetre of the shank in the window.");
        if (fit.ResidualMm * 1000 > options.GreatestResidualUm)
            return new Refusal("reference-differs", "The heel of the blade does not fit the as-new outline.",
                "Check that both photographs show the same working end, clean at the heel.", fit.ResidualMm * 1000, options.GreatestResidualUm, "µm");
        return new OutlineRegistration(used, fit);
    }

    private sealed record FitResult(Similarity Map, Matrix<double> Gain, Matrix<double> Own, double ResidualMm, double Cost, Vector<double> FaceEndGain, double ShiftZVariance);

    /// <summary>
    /// With the end of the face where it fits the outlines: a landmark much farther off than both allow was mistaken in one of the photographs.
    /// </summary>
    private static (FitResult Fit, ReferenceErrors Errors)? FitWithFaceEnd(ReferenceErrors errors, double[] offsetsMm, OutlineCurve today, Similarity start, DriftOptions options)
    {
        ReferenceErrors outlines = errors with { FaceEnd = null };
        if (Fit(outlines, offsetsMm, today, start, MostIterations, options) is not { } without) return null;
        if (errors.FaceEnd is not { } end) return (without, outlines);
        double off = without.Map.Apply(new(0, end.TodayZMm)).Y - end.Place.Position.Y;
        double variance = without.ShiftZVariance + end.UncertaintyMm * end.UncertaintyMm;
        if (off * off > GreatestOffSigmas * GreatestOffSigmas * variance || Fit(errors, offsetsMm, today, without.Map, MostIterations, options) is not { } with) return (without, outlines);
        return (with, errors);
    }

    private static FitResult? Fit(
        ReferenceErrors errors, double[] offsetsMm, OutlineCurve today, Similarity map, int iterations, DriftOptions options)
    {
        int n = errors.Places.Length;
        Vector2 pivot = errors.Errors.Pivot;
        Matrix<double> j = Jacobian(errors.Places, pivot);
        double prior = 1 / (errors.Errors.ScaleUncertainty * errors.Errors.ScaleUncertainty);
        double[] weights = new double[n];
        Array.Fill(weights, 1.0);
        for (int iteration = 1; ; iteration++)
        {
            double?[] distances = Distances(errors, offsetsMm, today, map, options);
            if (distances.Count(x => x is not null) < 2 * FewestPerSide) return null;
            // A place without a crossing has no say in this step.
            Vector<double> d = Vector.Build.Dense(n, i => distances[i] ?? 0);
            Matrix<double> own = errors.Own.Clone();
            for (int i = 0; i < n; i++) own[i, i] += (1 / (distances[i] is null ? 1e-6 : weights[i]) - 1) * errors.Spread[i] * errors.Spread[i];
            Cholesky<double> covariance = (own + errors.Shared).Cholesky();
            Matrix<double> weighted = covariance.Solve(j);
            Matrix<double> normal = j.TransposeThisAndMultiply(weighted);
            normal[3, 3] += prior;
            Vector<double> right = -weighted.TransposeThisAndMultiply(d);
            right[3] -= prior * Math.Log(map.Scale);
            double weight = 0;
            Vector<double> lever = Vector.Build.Dense(4);
            if (errors.FaceEnd is { } end)
            {
                // One more distance, along z at the middle of the blade.
                weight = 1 / (end.UncertaintyMm * end.UncertaintyMm);
                lever = Jacobian([end.Place], pivot).Row(0);
                normal += weight * lever.OuterProduct(lever);
                right -= weight * (map.Apply(new(0, end.TodayZMm)).Y - end.Place.Position.Y) * lever;
            }
            Vector<double> step = normal.Cholesky().Solve(right), left = d + j * step;
            map = About(step, pivot) * map;

            Vector<double> unexplained = left - errors.Patterns * errors.Patterns.TransposeThisAndMultiply(covariance.Solve(left));
            double change = Reweigh(weights, distances, unexplained, errors.Spread);
            if (iteration < iterations && (step.L2Norm() > 1e-7 || change > 1e-3)) continue;
            double residual = Math.Sqrt(Enumerable.Range(0, n).Sum(i => weights[i] * unexplained[i] * unexplained[i]) / weights.Sum());
            // Misses and outliers cost: a start that throws half the reference away must not win by fitting the rest.
            double cost = Enumerable.Range(0, n).Sum(i => distances[i] is null ? 9 : Math.Min(9, Math.Pow(unexplained[i] / errors.Spread[i], 2)))
                + prior * Math.Pow(Math.Log(map.Scale), 2);
            return new(map, normal.Cholesky().Solve(weighted.Transpose()), own, residual, cost, normal.Cholesky().Solve(weight * lever), normal.Cholesky().Solve(Vector.Build.Dense(4, k => k == 1 ? 1 : 0))[1]);
        }
    }

    private static double?[] Distances(ReferenceErrors reference, double[] offsetsMm, OutlineCurve today, Similarity map, DriftOptions options) =>
        [.. Crossings(reference, today, map, options).Select((hit, i) => hit?.Distance - offsetsMm[i] - reference.ExpectedMm[i])];

    private static IEnumerable<(double Distance, double Arc)?> Crossings(ReferenceErrors reference, OutlineCurve today, Similarity map, DriftOptions options)
    {
        PlaneCurve moved = today.Line.Mapped(map);
        return reference.Places.Select(p => moved.SmoothCrossing(p.Position, p.Inward, ReachMm, options.HalfWindowMm));
    }

    // The places that today's outline shows, with its noise there.
    private static (ReferenceErrors Reference, double[] OffsetsMm) AsSeen(ReferenceErrors reference, double[] offsetsMm, OutlineCurve today, Similarity map, DriftOptions options)
    {
        (double Distance, double Arc)?[] crossings = [.. Crossings(reference, today, map, options)];
        int[] seen = [.. Enumerable.Range(0, crossings.Length).Where(i => crossings[i] is not null)];
        EdgePlace[] places = [.. seen.Select(i => reference.Places[i] with { StandardUncertaintyMm = today.StandardUncertaintyAt(crossings[i]!.Value.Arc / map.Scale) })];
        ReferenceOutline baseline = reference.Baseline with { Places = [.. seen.Select(i => reference.Places[i])] };
        return (ReferenceErrors.Of(baseline, reference.Today with { Places = places }, reference.Errors, reference.FaceEnd), [.. seen.Select(i => offsetsMm[i])]);
    }

    /// <summary>Displacement along the inward normals per unit of (shift x, shift z, turn, relative scale) about the pivot.</summary>
    public static Matrix<double> Jacobian(IReadOnlyList<EdgePlace> places, Vector2 pivot) => DenseMatrix.Build.Dense(places.Count, 4, (i, k) =>
    {
        Vector2 n = places[i].Inward, r = places[i].Position - pivot;
        return k switch { 0 => n.X, 1 => n.Y, 2 => n.Dot(r.Perpendicular), _ => n.Dot(r) };
    });

    private static double Reweigh(double[] weights, double?[] distances, Vector<double> left, double[] spread)
    {
        // While today's outline still lies far off, everything is far: the unit is at least the middle distance, so that a bad start does not lock in.
        double[] sizes = [.. Enumerable.Range(0, spread.Length).Where(i => distances[i] is not null).Select(i => Math.Abs(left[i]) / spread[i]).Order()];
        double change = 0, unit = Math.Max(1, 1.48 * sizes[sizes.Length / 2]);
        for (int i = 0; i < weights.Length; i++)
        {
            double t = left[i] / (2 * spread[i] * unit), w = t > 1 ? 1 / (t * t) : t < -1 ? -1 / t : 1;
            change = Math.Max(change, Math.Abs(w - weights[i]));
            weights[i] = w;
        }
        return change;
    }

    private static Similarity About(Vector<double> step, Vector2 pivot)
    {
        Similarity about = new(Math.Exp(step[3]), step[2], 0, 0);
        Vector2 shift = pivot - about.Apply(pivot) + new Vector2(step[0], step[1]);
        return about with { Dx = shift.X, Dy = shift.Y };
    }
}
