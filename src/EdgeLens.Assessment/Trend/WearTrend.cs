using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using MathNet.Numerics.Distributions;

namespace EdgeLens.Assessment.Trend;

/// <summary>How fast a working end loses metal, and how well that is known.</summary>
public sealed class WearTrend
{
    private readonly WearModel _model;

    internal WearTrend(
        WearHistory history, TrendOptions options, WearModel model, ImmutableArray<WearObservation> observations, ImmutableArray<Exposure> exposures, ImmutableArray<string> remarks)
    {
        (History, Options, _model, Observations, Exposures, Remarks) = (history, options, model, observations, exposures, remarks);
    }

    /// <summary>What it was made from.</summary>
    public WearHistory History { get; }

    /// <summary>Assumptions.</summary>
    public TrendOptions Options { get; }

    /// <summary>In order of time.</summary>
    public ImmutableArray<WearObservation> Observations { get; }

    /// <summary>At each observation.</summary>
    public ImmutableArray<Exposure> Exposures { get; }

    /// <summary>What the reader must know: what could not be told apart, how weak the trend is. Whole sentences.</summary>
    public ImmutableArray<string> Remarks { get; }

    /// <summary>What the rates count; the first carries the scatter.</summary>
    public ImmutableArray<WearDriver> Drivers => _model.Drivers;

    /// <summary>Inspections less rates: the least degrees of freedom of a prediction.</summary>
    public int DegreesOfFreedom => _model.DegreesOfFreedom;

    /// <summary>True with so few degrees of freedom that the intervals mostly say how little is known.</summary>
    public bool IsWeak => DegreesOfFreedom < Options.FewestStrongDegreesOfFreedom;

    /// <summary>Mean loss by one sharpening, in the measure's unit.</summary>
    public Figure LossPerSharpening => RateOf(WearDriver.Sharpening, "No sharpening is logged between the inspections.");

    /// <summary>Mean loss by one light case, in the measure's unit.</summary>
    public Figure LossPerProcedure => RateOf(WearDriver.Procedure, "The inspections do not tell wear by use from wear by sharpening, or no procedure is logged.");

    /// <summary>Mean loss in a year, in the measure's unit; only where neither sharpenings nor procedures are logged.</summary>
    public Figure LossPerYear => RateOf(WearDriver.Time, "The trend runs over sharpenings or procedures.");

    /// <summary>How much single sharpenings scatter about their mean (standard deviation, the measure's unit) beyond what measuring explains; 0 where that explains all. Per √case or √year where no sharpening is logged.</summary>
    public double StepScatter => Math.Sqrt(_model.StepVariance);

    /// <summary>The true loss at an exposure, as it is predicted.</summary>
    /// <param name="exposure">Not less than at the last inspection to look ahead; less to draw the fitted line.</param>
    public PredictedLoss Predict(Exposure exposure)
    {
        (Measured loss, double freedom) = _model.Predict(exposure);
        double factor = double.IsInfinity(freedom) ? Normal.InvCDF(0, 1, 0.5 + Options.Probability / 2) : StudentT.InvCDF(0, 1, freedom, 0.5 + Options.Probability / 2);
        return new(exposure, loss, freedom, loss.Value - factor * loss.StandardUncertainty, loss.Value + factor * loss.StandardUncertainty);
    }

    private Figure RateOf(WearDriver driver, string whyMissing) => Drivers.IndexOf(driver) is >= 0 and int k ? _model.Rate(k) : Figure.Missing(whyMissing);
}

/// <summary>A loss ahead with its prediction interval.</summary>
/// <param name="Exposure">Where.</param>
/// <param name="Loss">Best prediction and standard deviation of its error.</param>
/// <param name="DegreesOfFreedom">How well that standard deviation is known: decides Student's factor.</param>
/// <param name="Low">Lower end of the interval by Student's t, the measure's unit.</param>
/// <param name="High">Upper end.</param>
public sealed record PredictedLoss(Exposure Exposure, Measured Loss, double DegreesOfFreedom, double Low, double High);
