using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Wording;

namespace EdgeLens.Assessment.Decision;

/// <summary>What to do now. Strokes, angles and tests are common practice; the maker's instructions come first, and the report says so.</summary>
internal static class NextSteps
{
    private const string Rod = "Test it on a plastic rod: a sharp edge bites, a dull one slides.";

    public static ImmutableArray<string> For(VerdictKind kind, string edges, InstrumentFamily family, IEnumerable<LimitCheck> open)
    {
        FamilyTraits traits = FamilyTraits.Of(family);
        string angle = traits.TipCuts
            ? FormattableString.Invariant($"the bevel at {traits.EdgeAngleMinDeg}°")
            : FormattableString.Invariant($"the angle between face and lateral surface at {traits.EdgeAngleMinDeg} to {traits.EdgeAngleMaxDeg}°");
        string finish = traits.TipCuts ? "Finish with two or three strokes upwards." : $"Follow the edge round to the {PlaceText.EndOf(family)} and keep its shape.";
        return kind switch
        {
            VerdictKind.Keep => ["Keep it in use. Store it in a cassette: loose storage dulls edges.", "Photograph it again after the next procedure or sharpening."],
            VerdictKind.TouchUp => [$"Dress {edges} with a few light strokes where the reasons say. Keep {angle}.", Rod, "Photograph it again: no line of light should be left."],
            VerdictKind.Resharpen =>
                [$"Sharpen {edges} along the whole length. Keep {angle}. {finish}", Rod, "Photograph it again and compare it with as-new before it goes back into use."],
            VerdictKind.Retire =>
            [
                "Take it out of use and do not sharpen it any further: a thinned or shortened working end can break.",
                "Before you discard it, confirm the loss with a second photograph.",
                "Discard it as a sharp, by your local rules.",
            ],
            _ =>
            [
                .. open.Where(c => c.Figure.Measured is null).Select(c => ReasonWords.PanelAdvice(c.Part, family)).Distinct(),
                "Photograph it again with the edge in best focus and its bright line just below white.",
                $"If that does not decide either: {char.ToLowerInvariant(Rod[0])}{Rod[1..]}",
            ],
        };
    }
}
