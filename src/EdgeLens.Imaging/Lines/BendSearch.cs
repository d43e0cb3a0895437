using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Imaging.Edges;

namespace EdgeLens.Imaging.Lines;

/// <summary>What a search for a bend found.</summary>
/// <param name="Best">The bend that fits best; null where none fits so much better than a straight line that it was worth a closer look.</param>
/// <param name="OverStraight">Twice the logarithm of its likelihood ratio against one straight line: for a place known beforehand, the square of a number of standard deviations.</param>
/// <param name="Strengths">For each place that was tried: standard uncertainty of a turn there, radians.</param>
public sealed record BendSearch(EdgeBend? Best, double OverStraight, ImmutableArray<(double PlacePx, double TurnSigmaRad)> Strengths);

/// <summary>A bend that was fitted to an edge; uncertainties are those of the fit.</summary>
/// <param name="PlacePx">From the stretch's start.</param>
/// <param name="TurnRad">By which the part before it leads more outwards along the stretch, as where a bevel is steeper next to its edge; at least 0.</param>
/// <param name="Before">The part before the bend.</param>
/// <param name="Behind">The part behind it, as a line over the whole stretch.</param>
/// <param name="BeforeSigmaRad">Standard uncertainty of the direction before it.</param>
/// <param name="BehindSigmaRad">Of that behind it.</param>
/// <param name="OverRound">Twice the logarithm of its likelihood ratio against the better of a line that ends in a circle and one that is bent evenly all along.</param>
public sealed record EdgeBend(Measured PlacePx, Measured TurnRad, Stretch Before, Stretch Behind, double BeforeSigmaRad, double BehindSigmaRad, double OverRound);

/// <summary>
/// Seeks a bend in a blurred edge: generalised likelihood ratio of the model of <see cref="StraightEdgeFitter"/> with a bend, place and turn free, against the same model straight, and against
/// one that is round before the place.
/// </summary>
/// <remarks>
/// Kay, Fundamentals of Statistical Signal Processing II: Detection Theory (1998), ch. 6 (generalised likelihood ratio; from memory). The place has no meaning without a turn, so that the ratio is a maximum over places
/// (Andrews, Econometrica 61 (1993) 821-856; from memory): a caller has to allow for how many there are. docs/physics/angles.md.
/// </remarks>
/// <param name="picture">The photograph.</param>
/// <param name="stretch">Where the edge is thought to be, within about 2 px and 5°.</param>
/// <param name="sharpening">Of the photograph.</param>
/// <param name="inwardPx">Depth of steel that takes part.</param>
/// <param name="outwardPx">Ground that takes part.</param>
/// <param name="blurPx">Range in which the blur is sought.</param>
/// <param name="roundestPx">Greatest radius of a rounded end.</param>
/// <param name="leastClear">Likelihood ratio against a straight line below which a bend is not worth a closer look.</param>
public sealed class BendSeeker(TonePicture picture, Stretch stretch, Sharpening sharpening, int inwardPx, int outwardPx, (double Least, double Greatest) blurPx, double roundestPx, double leastClear)
{
    // Shortest part on either side of a bend that shows a direction of its own: some six blurs.
    private const double LeastPartPx = 6;

    // A bend's effect grows with its place: bends at places that differ by a third show nearly the same (their effects correlate by 0.93); the best is refined.
    private const double PlaceRatio = 1.35;

    // Places about the best one that are weighed: from half to twice of it.
    private const double FineRatio = 1.08;
    private const int FinePlaces = 9;

    // The eighteen parameters take from the residuals what neighbouring ones share: of a sum over 7 x 7 neighbours of some 1200 residuals up to 49 x 18 / 1200, seven tenths, for smooth ones, and less for
    // those that matter at the edge alone. On drawn bevels the scatter is 1.2 of what is stated without it.
    private const double TakenByFit = 1.2 * 1.2;

    // Where the search for a turn begins besides none: what a hand that holds a stone too steeply is off by, 5 to 15°.
    private static readonly double StartTurn = Math.Tan(8 * Math.PI / 180);

    private static readonly double[] StartSlopes = [-Math.Tan(5 * Math.PI / 180), 0, Math.Tan(5 * Math.PI / 180)];

    private readonly LineStrip _strip = new(picture, stretch, inwardPx, outwardPx);

    /// <summary>Seeks.</summary>
    /// <returns>Null where the stretch is too short for two parts, or the picture carries neither.</returns>
    public BendSearch? Seek()
    {
        double[] places = [.. Enumerable.Range(0, 100).Select(i => LeastPartPx * Math.Pow(PlaceRatio, i)).TakeWhile(p => p <= stretch.LengthPx - LeastPartPx)];
        if (places.Length == 0) return null;
        DampedLeastSquares straight = Best(Together(StartSlopes, s => Solve(null, (0, s, 0))));
        ImmutableArray<(double, double)>.Builder strengths = ImmutableArray.CreateBuilder<(double, double)>();
        (double Place, DampedLeastSquares Fit)? best = null;
        foreach ((double place, EdgeForm form, DampedLeastSquares fit) in Together(places, p => (p, new EdgeForm(p, false), Solve(new EdgeForm(p, false), Start(straight, StartTurn)))))
        {
            if (!double.IsFinite(fit.UnitSd(EdgeStripModel.Turn))) continue;
            strengths.Add((place, Model(form).TurnRad(fit, Variance(form, fit)).StandardUncertainty));
            if (best is null || fit.SumOfSquares < best.Value.Fit.SumOfSquares) best = (place, fit);
        }
        if (best is null) return null;
        EdgeForm free = new(best.Value.Place, false, true);
        DampedLeastSquares found = Solve(free, Start(best.Value.Fit, Turn(best.Value.Fit)));
        // Without a turn there is no place.
        if (!double.IsFinite(found.UnitSd(0)) || !double.IsFinite(found.UnitSd(EdgeStripModel.Turn)) || !double.IsFinite(found.UnitSd(EdgeStripModel.Place)) || found.SumOfSquares >= straight.SumOfSquares) return new(null, 0, strengths.ToImmutable());
        double variance = Variance(free, found), half = stretch.LengthPx / 2, bestPx = found.Parameters[EdgeStripModel.Place];
        (double offset, double slope, double turned) = Start(found, Turn(found));
        // The straight line may have been caught in a worse minimum than the bend's two parts lead to.
        double atStart = offset - slope * half - turned * bestPx;
        straight = Best([straight, .. Together([(offset, slope, 0.0), (atStart + (slope + turned) * half, slope + turned, 0.0)], s => Solve(null, s))]);
        double clear = (straight.SumOfSquares - found.SumOfSquares) / variance;
        if (clear < leastClear) return new(null, clear, strengths.ToImmutable());
        DampedLeastSquares round = Best(Together([.. places.Where(p => p < roundestPx).Select(p => new EdgeForm(p, true, false, p / roundestPx)), new(stretch.LengthPx, true)], f => Solve(f, (offset, slope, StartTurn))));
        double overRound = (round.SumOfSquares - found.SumOfSquares) / variance;
        return new(Weighed(found, bestPx, variance, overRound), clear, strengths.ToImmutable());
    }

    /// <summary>
    /// Moments over the places that the picture allows: how well a bend fits falls off unevenly to either side of the best place, so that the curvature there alone states too little. Each place counts
    /// by its likelihood (Laplace's approximation), as the minima of <see cref="StraightEdgeFitter.FitFaint"/> do.
    /// </summary>
    private EdgeBend Weighed(DampedLeastSquares found, double bestPx, double variance, double overRound)
    {
        double half = stretch.LengthPx / 2;
        WeighedMoments placePx = new(), offsetPx = new(), behind = new(), turn = new(), before = new();
        double[] places = [.. Enumerable.Range(-FinePlaces, 2 * FinePlaces + 1).Select(i => bestPx * Math.Pow(FineRatio, i)).Where(p => p >= 1 && p <= stretch.LengthPx - 1)];
        foreach ((double place, DampedLeastSquares fit) in Together(places, p => (p, Solve(new EdgeForm(p, false), Start(found, Turn(found))))))
        {
            if (!double.IsFinite(fit.UnitSd(0)) || !double.IsFinite(fit.UnitSd(EdgeStripModel.Turn))) continue;
            (double offset, double slope, double turned) = Start(fit, Turn(fit));
            double byOffset = variance * Math.Pow(fit.UnitSd(0), 2), bySlope = variance * Math.Pow(fit.UnitSd(1) / half, 2), byTurn = variance * Math.Pow(fit.UnitSd(EdgeStripModel.Turn) / half, 2);
            // Times the place: the steps grow with it.
            double weight = place * Math.Exp((found.SumOfSquares - fit.SumOfSquares) / (2 * variance)) * Math.Sqrt(byOffset * bySlope * byTurn);
            placePx.Add(weight, place, Math.Pow(place * (FineRatio - 1), 2) / 12);
            offsetPx.Add(weight, offset, byOffset);
            behind.Add(weight, slope, bySlope);
            turn.Add(weight, turned, byTurn);
            // A turn and the line behind it trade for each other: their sum is no worse than if they did not.
            before.Add(weight, slope + turned, bySlope + byTurn);
        }
        double at = offsetPx.Mean + behind.Mean * (placePx.Mean - half), start = at - before.Mean * placePx.Mean, turnedMean = turn.Mean;
        return new(placePx.Measured, new(Math.Atan(turnedMean), turn.Sigma / (1 + turnedMean * turnedMean)),
            Stretch.Between(stretch.At(0, start), stretch.At(placePx.Mean, at), stretch.At(half, -100)), stretch.Moved(offsetPx.Mean, behind.Mean), before.Sigma, behind.Sigma, overRound);
    }

    private EdgeStripModel Model(EdgeForm? form) => new(_strip, sharpening.Amount, form);

    private DampedLeastSquares Solve(EdgeForm? form, (double OffsetPx, double Slope, double Turn) start) => Model(form).Solve(blurPx.Least, blurPx.Greatest, start.OffsetPx, start.Slope, start.Turn);

    private double Variance(EdgeForm? form, DampedLeastSquares fit) => fit.Variance * Model(form).Correlation(fit) * TakenByFit;

    private (double OffsetPx, double Slope, double Turn) Start(DampedLeastSquares fit, double turn) => (fit.Parameters[0], fit.Parameters[1] / (stretch.LengthPx / 2), turn);

    private double Turn(DampedLeastSquares fit) => fit.Parameters[EdgeStripModel.Turn] / (stretch.LengthPx / 2);

    /// <summary>One result for each start, in their order: fits from different starts have nothing to do with each other, and a photograph is judged on two cores.</summary>
    private static TResult[] Together<T, TResult>(T[] starts, Func<T, TResult> fit) => [.. starts.AsParallel().AsOrdered().Select(fit)];

    private static DampedLeastSquares Best(ReadOnlySpan<DampedLeastSquares> fits)
    {
        DampedLeastSquares best = fits[0];
        foreach (DampedLeastSquares fit in fits)
            if (fit.SumOfSquares < best.SumOfSquares) best = fit;
        return best;
    }
}
