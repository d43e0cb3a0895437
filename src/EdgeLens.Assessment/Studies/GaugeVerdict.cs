using EdgeLens.Assessment.Wording;

namespace EdgeLens.Assessment.Studies;

/// <summary>How good a practice's photographs are for one figure.</summary>
public enum GaugeGrade
{
    /// <summary>A loss is seen long before it matters.</summary>
    Good,

    /// <summary>A loss is seen before its limit, but with a wide band in which nothing can be decided.</summary>
    Fair,

    /// <summary>A loss at the limit can be missed.</summary>
    Poor,
}

/// <summary>What a study says of one figure.</summary>
/// <param name="Name">The figure's name in the JSON, with its unit.</param>
/// <param name="Unit">Of readings and limit.</param>
/// <param name="Anova">The analysis.</param>
/// <param name="Limit">The policy's mildest limit of the figure; null where there is none.</param>
/// <param name="StatedSd">Root mean square of the standard uncertainties that the program stated for the readings, without what all readings of a thing share.</param>
public sealed record GaugeVerdict(string Name, string Unit, GaugeAnova Anova, double? Limit, double StatedSd)
{
    /// <summary>A third of the limit: then the band of ± U about the limit, where nothing is decided, is at most two thirds of the way from nothing to the limit.</summary>
    private const double GoodShare = 1.0 / 3;

    // The manual's bands for the gauge's share in all variation.
    private const double GoodPercent = 10, FairPercent = 30;

    /// <summary>Variances by the manual's rule for pooling.</summary>
    public GaugeVariances Variances => Anova.Variances;

    /// <summary>Two photographs of one working end by one person differ by less than this 95 times of 100 when nothing has changed: the repeatability limit r = 2 √2 s, ISO 5725-6:1994, 4.1.4 (2.8 s).</summary>
    public double RepeatabilityLimit => 2 * Math.Sqrt(2) * Variances.RepeatabilitySd;

    /// <summary>The same for two people: the smallest change that this practice's photographs show for sure, the reproducibility limit R of ISO 5725-6:1994, 4.1.4.</summary>
    public double SmallestChangeSeen => 2 * Math.Sqrt(2) * Variances.GaugeSd;

    /// <summary>Against the limit where there is one, else by the gauge's share in all variation.</summary>
    public GaugeGrade Grade => Limit is { } limit and > 0
        ? SmallestChangeSeen <= GoodShare * limit ? GaugeGrade.Good : SmallestChangeSeen <= limit ? GaugeGrade.Fair : GaugeGrade.Poor
        : Variances.GaugePercent < GoodPercent ? GaugeGrade.Good : Variances.GaugePercent <= FairPercent ? GaugeGrade.Fair : GaugeGrade.Poor;

    /// <summary>Observed over stated standard deviation: about 1 when the program's uncertainties hold for this practice.</summary>
    public double? ObservedOverStated => StatedSd > 0 ? Variances.GaugeSd / StatedSd : null;

    /// <summary>The verdict in whole sentences.</summary>
    public string Words
    {
        get
        {
            string seen = $"A change of {Text(SmallestChangeSeen)} or more between two photographs is seen for sure, whoever takes them; {Text(RepeatabilityLimit)} when one person takes both.";
            string against = Limit is { } limit and > 0
                ? Grade switch
                {
                    GaugeGrade.Good => $" That is less than a third of the limit of {FigureText.Limit(limit, Unit)}: good.",
                    GaugeGrade.Fair => $" That is less than the limit of {FigureText.Limit(limit, Unit)}, but more than a third of it: fair. Take two photographs where a figure comes near to the limit.",
                    _ => $" That is more than the limit of {FigureText.Limit(limit, Unit)}: poor. Do not judge by this figure until the photographs are better.",
                }
                : FormattableString.Invariant($" The photographs make up {Variances.GaugePercent:0} % of all variation (below 10 good, to 30 fair).");
            string people = Variances.ReproducibilitySd > Variances.RepeatabilitySd
                ? " People differ more from each other than from themselves: agree on how the instrument is laid in the window and how the bars are read."
                : "";
            return seen + against + people;
        }
    }

    private string Text(double value) => FigureText.WithUncertainty(new(value, 0), Unit, Unit == "mm" ? 3 : 1);
}
