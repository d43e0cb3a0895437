using System.Globalization;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Wording;

/// <summary>Figures as people read them. Invariant culture.</summary>
public static class FigureText
{
    /// <summary>
    /// "34.2 ± 6.1 %": the expanded uncertainty (k = 2) to two significant digits and the value to the same place, JCGM 100:2008, 7.2.6; but never finer than
    /// a practice can use (0.1 %, 0.1 µm, 1 µm in mm).
    /// </summary>
    public static string WithUncertainty(Measured figure, string unit) => WithUncertainty(figure, unit, DecimalsOf(figure, unit));

    /// <summary>Decimals that <see cref="WithUncertainty(Measured, string)"/> shows.</summary>
    public static int DecimalsOf(Measured figure, string unit) => Math.Min(Decimals(figure), unit == "mm" ? 3 : 1);

    /// <summary>The same with a given number of decimals, for a column of figures of one kind.</summary>
    public static string WithUncertainty(Measured figure, string unit, int decimals)
    {
        // An uncertainty below the last place shown is rounded up to it: ± 0.0 would claim that there is none.
        double shown = Math.Max(figure.ExpandedUncertainty, Math.Pow(10, -decimals));
        string uncertainty = figure.ExpandedUncertainty == 0 ? "" : $" ± {Number(shown, decimals)}";
        return $"{Number(figure.Value, decimals)}{uncertainty} {unit}".TrimEnd();
    }

    /// <summary>A number with a true minus sign, and without a minus before zero.</summary>
    public static string Number(double value, int decimals)
    {
        string text = value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        bool isZero = text.AsSpan().IndexOfAnyInRange('1', '9') < 0;
        return isZero ? text.TrimStart('-') : text.Replace('-', '−');
    }

    /// <summary>A limit as it was written: at most three decimals, none that are zero.</summary>
    public static string Limit(double value, string unit) => $"{value.ToString("0.###", CultureInfo.InvariantCulture).Replace('-', '−')} {unit}";

    /// <summary>Why a figure is missing, whether it came as a sentence or not, made to stand in brackets or after a colon.</summary>
    public static string WhyMissing(string? why) => why is not { Length: > 0 } ? "" : char.ToLowerInvariant(why[0]) + why[1..].TrimEnd('.', ' ');

    private static int Decimals(Measured figure)
    {
        // Without an uncertainty: three digits of the value. More than six decimals (1 nm in mm) mean nothing here.
        bool isExact = figure.ExpandedUncertainty == 0;
        double size = isExact ? Math.Abs(figure.Value) : figure.ExpandedUncertainty;
        if (size == 0) return 0;
        int leading = (int)Math.Floor(Math.Log10(size));
        return Math.Clamp((isExact ? 2 : 1) - leading, 0, 6);
    }
}
