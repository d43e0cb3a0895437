using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Imaging.Calibration;

/// <summary>The two bars of the printed card as the user measured them with a caliper.</summary>
/// <param name="BarXMm">Horizontal bar.</param>
/// <param name="BarYMm">Vertical bar.</param>
public sealed record PrintMeasurement(Measured BarXMm, Measured BarYMm)
{
    /// <summary>Standard deviation of one careful reading of a bar's length with a caliper that shows 0.01 mm, mm (issue text; common practice).</summary>
    public const double CaliperStandardDeviationMm = 0.01;

    /// <summary>An unmeasured print on a home or office printer set to 100 % is within about ± 1 % of its nominal size (common practice).</summary>
    public const double UnmeasuredRelativeLimit = 0.01;

    /// <summary>Two readings by caliper, with <see cref="CaliperStandardDeviationMm"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A reading is not a positive length.</exception>
    public static PrintMeasurement FromReadings(double barXMm, double barYMm)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(barXMm);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(barYMm);
        return new(new(barXMm, CaliperStandardDeviationMm), new(barYMm, CaliperStandardDeviationMm));
    }

    /// <summary>The print was not measured: nominal size, with the uncertainty that this costs.</summary>
    public static PrintMeasurement NotMeasured(CardDescription card) => new(
        new(card.BarX.LengthMm, Quadrature.FromLimits(UnmeasuredRelativeLimit * card.BarX.LengthMm)),
        new(card.BarY.LengthMm, Quadrature.FromLimits(UnmeasuredRelativeLimit * card.BarY.LengthMm)));

    /// <summary>A name for the print by its readings; null where they are only assumed.</summary>
    public string? Name => BarXMm.StandardUncertainty <= CaliperStandardDeviationMm ? FormattableString.Invariant($"{BarXMm.Value:0.###} x {BarYMm.Value:0.###} mm") : null;

    /// <summary>Printed over nominal along x.</summary>
    internal Measured ScaleX(CardDescription card) => BarXMm.Scale(1 / card.BarX.LengthMm);

    /// <summary>Printed over nominal along y.</summary>
    internal Measured ScaleY(CardDescription card) => BarYMm.Scale(1 / card.BarY.LengthMm);
}
