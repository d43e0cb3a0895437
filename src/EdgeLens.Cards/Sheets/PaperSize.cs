using System.Collections.Immutable;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Cards.Sheets;

/// <summary>A sheet of paper, upright.</summary>
/// <param name="Name">As printers call it.</param>
/// <param name="WidthMm">Shorter side.</param>
/// <param name="HeightMm">Longer side.</param>
public sealed record PaperSize(string Name, double WidthMm, double HeightMm)
{
    /// <summary>Left free on all sides: common printers leave 4 to 6 mm unprinted, and the crop marks need room.</summary>
    internal const double MarginMm = 15;

    /// <summary>ISO 216.</summary>
    public static PaperSize A4 { get; } = new("A4", 210, 297);

    /// <summary>ANSI/ASME Y14.1 size A, 8.5 x 11 inches.</summary>
    public static PaperSize Letter { get; } = new("Letter", 215.9, 279.4);

    /// <summary>All that the program knows.</summary>
    public static ImmutableArray<PaperSize> All { get; } = [A4, Letter];

    /// <summary>True when the card and the words around it fit on the sheet.</summary>
    public bool Takes(CardDescription card)
    {
        ArgumentNullException.ThrowIfNull(card);
        return card.OuterWidthMm <= WidthMm - 2 * MarginMm && card.OuterHeightMm <= HeightMm - 2 * MarginMm - PdfSheets.RoomForWordsMm;
    }
}
