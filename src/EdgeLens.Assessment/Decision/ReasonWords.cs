using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Decision;

/// <summary>A comparison in words: figure, value ± U, limit, state, edge and stretch, and for an open one what would decide it.</summary>
internal static class ReasonWords
{
    /// <param name="finding">What one figure says.</param>
    /// <param name="family">Decides the names of places.</param>
    /// <param name="isWorkingEdgeAssumed">Whether both edges are judged because nobody said which one works.</param>
    public static string Of(Finding finding, InstrumentFamily family, bool isWorkingEdgeAssumed)
    {
        LimitCheck check = finding.Main;
        string subject = Subject(check, family, isWorkingEdgeAssumed);
        if (check.Figure.Measured is not { } figure)
            return check.What == CheckedFigure.ReflectingFraction
                ? $"{subject}: the light cannot show it ({FigureText.WhyMissing(check.Figure.WhyMissing)}).{(IsTipArc(check.Part, family) ? " Put the panels ahead of the tip." : "")}"
                : $"{subject}: not measured ({FigureText.WhyMissing(check.Figure.WhyMissing)}).";
        string more = finding.Alike == 0 ? "" : FormattableString.Invariant($" and {finding.Alike} more there");
        string statement = $"{subject}: {Statement(check, FigureText.WithUncertainty(figure, check.Unit), family)}{more}";
        return check.Conformity switch
        {
            Conformity.Outside when finding.Open is { } open => $"{statement}, clear above {Limit(check)}; {Undecided(open, figure)}",
            Conformity.Outside => $"{statement}, clear above {Limit(check)}.",
            Conformity.Inside => $"{statement}, clear below {Limit(check)}.",
            _ => $"{statement}, {Undecided(check, figure)}",
        };
    }

    private static string Limit(LimitCheck check) => $"the limit of {FigureText.Limit(check.Limit, check.Unit)} for {Consequence(check.Role)}";

    private static string Undecided(LimitCheck open, Measured figure) => $"not decidable against {Limit(open)}: the interval {Interval(figure, open.Unit)} holds it. {Deciding.Words(open, figure)}";

    /// <summary>What the limit is for.</summary>
    private static string Consequence(LimitRole role) => role switch
    {
        LimitRole.Watch => "watching",
        LimitRole.TouchUp => "a touch-up",
        LimitRole.Resharpen => "resharpening",
        _ => "retiring",
    };

    /// <summary>Where the panels must stand so that a part of the edge can be seen.</summary>
    public static string PanelAdvice(EdgePart? part, InstrumentFamily family) => part switch
    {
        EdgePart.Toe when IsTipArc(part, family) =>
            "Put the panels ahead of the tip, about 30° left and right of the blade's axis and 30 to 45° above the face.",
        EdgePart.Toe => "Put a panel ahead of the toe, 30 to 45° above the face.",
        _ => "Put a soft panel on the side that is dark, 30 to 45° above the face.",
    };

    private static bool IsTipArc(EdgePart? part, InstrumentFamily family) => part == EdgePart.Toe && FamilyTraits.Of(family).TipCuts;

    private static string Subject(LimitCheck check, InstrumentFamily family, bool isWorkingEdgeAssumed) => check switch
    {
        { What: CheckedFigure.WidthLoss } => "Width",
        { What: CheckedFigure.LengthLoss } => "Length",
        { What: CheckedFigure.ShapeDrift } => "Shape",
        { What: CheckedFigure.FaceAngleDrift } => "Angle between face and shank",
        { What: CheckedFigure.WedgeAngleDrift } => "Wedge angle",
        { What: CheckedFigure.InternalAngleDrift } when !isWorkingEdgeAssumed => $"Internal angle of the {PlaceText.Name(check.Part!.Value, family)}",
        { What: CheckedFigure.InternalAngleDrift } => $"Internal angle of the {PlaceText.Name(check.Part!.Value, family)} (if it is the working one)",
        { Part: EdgePart.Left or EdgePart.Right } when isWorkingEdgeAssumed => PlaceText.Sentence(PlaceText.Name(check.Part.Value, family)) + " (if it is the working one)",
        _ => PlaceText.Sentence(PlaceText.Name(check.Part!.Value, family)),
    };

    private static string Statement(LimitCheck check, string value, InstrumentFamily family)
    {
        string places = PlaceText.From(check.Where, family);
        string where = places.Length == 0 ? "" : $" ({places})";
        return check.What switch
        {
            CheckedFigure.ReflectingFraction => $"{value} of it reflects light{where}",
            CheckedFigure.GreatestReflectionWidth => $"its bright line is up to {value} wide{where}",
            CheckedFigure.NickDepth => $"a nick {value} deep, {places}",
            CheckedFigure.WidthLoss => $"{value} of the as-new width is gone, {places}",
            CheckedFigure.EdgeRadius => $"it is rounded by up to {value}{where}",
            CheckedFigure.ShapeDrift => $"the outline departs by {value} (rms) from the as-new form, apart from an even loss",
            CheckedFigure.FaceAngleDrift or CheckedFigure.InternalAngleDrift or CheckedFigure.WedgeAngleDrift => $"{value} {(check.SignedValue < 0 ? "smaller" : "greater")} than as-new",
            _ => $"the {PlaceText.EndOf(family)} stands {value} behind the as-new one",
        };
    }

    private static string Interval(Measured figure, string unit)
    {
        int decimals = FigureText.DecimalsOf(figure, unit);
        return $"{FigureText.Number(figure.Value - figure.ExpandedUncertainty, decimals)} to {FigureText.Number(figure.Value + figure.ExpandedUncertainty, decimals)} {unit}";
    }
}
