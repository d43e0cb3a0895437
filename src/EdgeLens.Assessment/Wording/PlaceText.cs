using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;

namespace EdgeLens.Assessment.Wording;

/// <summary>Places on a working end as people say them.</summary>
public static class PlaceText
{
    /// <summary>"toe" of a curette, "tip" of everything else.</summary>
    public static string EndOf(InstrumentFamily family) =>
        family is InstrumentFamily.UniversalCurette or InstrumentFamily.AreaSpecificCurette ? "toe" : "tip";

    /// <summary>"left edge", "toe", "tip arc" ...</summary>
    public static string Name(EdgePart part, InstrumentFamily family) => part switch
    {
        EdgePart.Left => "left edge",
        EdgePart.Right => "right edge",
        _ => FamilyTraits.Of(family).TipCuts ? "tip arc" : EndOf(family),
    };

    /// <summary>"0.40 to 1.60 mm from the toe", "2.10 mm from the toe".</summary>
    public static string From(Stretch stretch, InstrumentFamily family)
    {
        string to = FigureText.Number(stretch.ToStationMm, 2);
        string from = FigureText.Number(stretch.FromStationMm, 2);
        return from == to ? $"{to} mm from the {EndOf(family)}" : $"{from} to {to} mm from the {EndOf(family)}";
    }

    /// <summary>Several stretches in one phrase; empty for none.</summary>
    public static string From(IReadOnlyCollection<Stretch> stretches, InstrumentFamily family)
    {
        string end = $" mm from the {EndOf(family)}";
        return stretches.Count == 0 ? "" : string.Join(" and ", stretches.Select(s => From(s, family).Replace(end, "", StringComparison.Ordinal))) + end;
    }

    /// <summary>"the left edge", "the left and the right edge".</summary>
    public static string Edges(IReadOnlyCollection<EdgePart> parts, InstrumentFamily family) => parts.Count == 2 && !parts.Contains(EdgePart.Toe)
        ? "both edges"
        : string.Join(" and ", parts.Select(p => "the " + Name(p, family)));

    /// <summary>The same with a capital first letter.</summary>
    public static string Sentence(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];
}
