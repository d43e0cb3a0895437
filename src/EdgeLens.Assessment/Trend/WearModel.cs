using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;

namespace EdgeLens.Assessment.Trend;

/// <summary>
/// Loss = sum over the drivers of (rate · exposure), from exactly nothing at as-new, plus what single sharpenings take more or less than the mean, plus the errors of measuring.
/// </summary>
/// <remarks>
/// The change points are the sharpenings: each is a step whose size scatters about the mean with an unknown standard deviation τ. Steps stay, so the departure
/// from the mean line is a sum of independent ones and two moments share those before the earlier: covariance τ² · min(count, count'). (Where no sharpening is
/// logged, the same with procedures or years.) Measuring adds each inspection's own variance, and one common to all by the shared as-new photographs.
/// τ² is chosen so that the weighted squares of the residuals are as many as the degrees of freedom, and 0 when they are fewer already: Mandel and Paule,
/// Anal. Chem. 42 (1970) 1194-1197. Rates by generalised least squares; the loss ahead by the best linear unbiased prediction, which starts from where the
/// working end stands and not from the mean line. How well τ² is known follows from that condition: the sum of squares has the variance 2 ν, so
/// u(τ²) = √(2 ν) / |d(sum)/dτ²|; the degrees of freedom of a prediction are ½ (variance / u(variance))², JCGM 100:2008, equation (G.3). They are those of the fit where the
/// steps' scatter dominates and more where measuring does, whose variance is known.
/// </remarks>
internal sealed class WearModel
{
    private readonly ImmutableArray<Exposure> _exposures;
    private readonly ImmutableArray<WearDriver> _drivers;
    private readonly GeneralLeastSquares _fit, _nearby;
    // Times the square of the greatest loss: a step variance beyond every other contribution, and well inside what the factorisation stands.
    private const double AnyVariance = 1e4;

    private readonly double _nearbyVariance, _varianceUncertainty;

    private WearModel(
        ImmutableArray<Exposure> exposures, ImmutableArray<WearObservation> observations, ImmutableArray<WearDriver> drivers, double stepVariance, Func<double, GeneralLeastSquares> at)
    {
        (_exposures, _drivers, StepVariance, _fit) = (exposures, drivers, stepVariance, at(stepVariance));
        // A step for derivatives: a thousandth of the smallest variance that an observation has per unit of exposure.
        double delta = 1e-3 * observations.Select((o, i) => stepVariance + Math.Pow(o.Loss.StandardUncertainty, 2) / Math.Max(1, exposures[i].Of(drivers[0]))).Min();
        _nearbyVariance = stepVariance + delta;
        _nearby = at(_nearbyVariance);
        double slope = (_fit.ChiSquare - _nearby.ChiSquare) / delta;
        _varianceUncertainty = slope > 0 ? Math.Sqrt(2.0 * _fit.DegreesOfFreedom) / slope : double.PositiveInfinity;
    }

    /// <summary>τ²: variance of one step, or per unit of exposure where no sharpening is logged.</summary>
    public double StepVariance { get; }

    public int DegreesOfFreedom => _fit.DegreesOfFreedom;

    public double ChiSquare => _fit.ChiSquare;

    public ImmutableArray<WearDriver> Drivers => _drivers;

    public Measured Rate(int driver) => _fit.Coefficient(driver);

    public static Outcome<WearModel> Fit(ImmutableArray<Exposure> exposures, ImmutableArray<WearObservation> observations, ImmutableArray<WearDriver> drivers)
    {
        double[,] design = new double[observations.Length, drivers.Length];
        for (int i = 0; i < observations.Length; i++)
            for (int k = 0; k < drivers.Length; k++) design[i, k] = exposures[i].Of(drivers[k]);
        double[] losses = [.. observations.Select(o => o.Loss.Value)];
        Outcome<GeneralLeastSquares> none = At(0);
        if (!none.TryGet(out GeneralLeastSquares? fit, out Refusal? refusal)) return refusal;
        double scale = losses.Max(y => y * y);
        // Inspections with no step between them share whatever the steps did: however large τ² is, their difference stays, and Mandel and Paule's equation may have no solution.
        if (fit.DegreesOfFreedom > 0 && scale > 0 && At(AnyVariance * scale).Value.ChiSquare > fit.DegreesOfFreedom)
            return new Refusal("trend-inconsistent", "Inspections with no sharpening or use between them differ by more than their uncertainties: the history lacks entries, or two instruments were mixed up.",
                "Log the sharpenings that are missing, and check that the photographs are of this working end.");
        double variance = MandelPaule.Variance(v => At(v).Value.ChiSquare, fit.DegreesOfFreedom, scale);
        return new WearModel(exposures, observations, drivers, variance, v => At(v).Value);

        Outcome<GeneralLeastSquares> At(double stepVariance) => GeneralLeastSquares.Fit(design, losses, Covariance(exposures, observations, drivers[0], stepVariance));
    }

    /// <summary>The true loss at some exposure, with the standard deviation of the prediction's error and its degrees of freedom.</summary>
    public (Measured Loss, double DegreesOfFreedom) Predict(Exposure at)
    {
        Measured loss = Predict(at, _fit, StepVariance);
        double variance = Math.Pow(loss.StandardUncertainty, 2);
        double change = (Math.Pow(Predict(at, _nearby, _nearbyVariance).StandardUncertainty, 2) - variance) / (_nearbyVariance - StepVariance);
        double freedom = 0.5 * Math.Pow(variance / (Math.Max(0, change) * _varianceUncertainty), 2);
        return (loss, double.IsNaN(freedom) ? DegreesOfFreedom : Math.Max(DegreesOfFreedom, freedom));
    }

    private Measured Predict(Exposure at, GeneralLeastSquares fit, double stepVariance)
    {
        double steps = at.Of(_drivers[0]);
        return fit.Predict([.. _drivers.Select(at.Of)], stepVariance * steps, [.. _exposures.Select(e => stepVariance * Math.Min(e.Of(_drivers[0]), steps))]);
    }

    private static double[,] Covariance(ImmutableArray<Exposure> exposures, ImmutableArray<WearObservation> observations, WearDriver steps, double stepVariance)
    {
        int n = observations.Length;
        double[,] v = new double[n, n];
        for (int i = 0; i < n; i++)
            for (int k = 0; k < n; k++)
            {
                double shared = observations[i].SharedStandardUncertainty * observations[k].SharedStandardUncertainty;
                double measuring = i == k ? Math.Pow(observations[i].Loss.StandardUncertainty, 2) : shared;
                v[i, k] = measuring + stepVariance * Math.Min(exposures[i].Of(steps), exposures[k].Of(steps));
            }
        return v;
    }
}
