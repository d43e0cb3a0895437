using System.Globalization;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Cli.Folders;

/// <summary>Looks whether two readings can be the card's bars: x and y are easily swapped, and a swapped pair would scale every figure.</summary>
internal static class CaliperReadings
{
    /// <summary>Printers at 100 % stay within 1 % (common practice); at "fit to page" about 3 to 6 % are lost, and such a card still measures.</summary>
    private const double GreatestStretch = 0.10;

    /// <summary>What is wrong; null when nothing is.</summary>
    public static string? Complaint(CardDescription card, double barXMm, double barYMm)
    {
        if (Fits(barXMm, card.BarX.LengthMm) && Fits(barYMm, card.BarY.LengthMm)) return null;
        string swapped = Fits(barXMm, card.BarY.LengthMm) && Fits(barYMm, card.BarX.LengthMm) ? "; x and y are swapped" : "";
        return string.Create(CultureInfo.InvariantCulture,
            $"is {barXMm} mm by {barYMm} mm, but the bars of card {card.Name} are {card.BarX.LengthMm} mm (x, horizontal) and {card.BarY.LengthMm} mm (y, vertical), within 10 %{swapped}");
    }

    private static bool Fits(double measuredMm, double nominalMm) => Math.Abs(measuredMm / nominalMm - 1) <= GreatestStretch;
}
