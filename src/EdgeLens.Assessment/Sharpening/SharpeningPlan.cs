using System.Collections.Immutable;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Sharpening;

/// <summary>Work on one edge.</summary>
/// <param name="Edge">Left, right, or the toe: of a luxator or elevator the tip arc.</param>
/// <param name="IsFull">Along the whole edge; else a few light strokes where <paramref name="Where"/> says.</param>
/// <param name="Where">Stretches; empty for the whole edge.</param>
/// <param name="StoneToFaceDeg">Angle between stone and face (luxators and elevators: between bevel and opposite surface, 180° less the wedge), outside the steel.</param>
/// <param name="IsAngleOfFamily">True when no measured as-new angle stands behind it but the family's usual one.</param>
/// <param name="CostUm">How far the edge will recede in the face view; missing with its reason.</param>
/// <param name="Words">In a sentence or two.</param>
public sealed record SharpeningStep(EdgePart Edge, bool IsFull, ImmutableArray<Stretch> Where, Measured StoneToFaceDeg, bool IsAngleOfFamily, Figure CostUm, string Words);

/// <summary>What to do at the bench, in order. Strokes, order and angles are common practice; the maker's instructions come first.</summary>
/// <param name="Steps">Edge by edge; empty when nothing is to be ground.</param>
/// <param name="Before">What comes before the first stroke.</param>
/// <param name="After">What comes after the last one: rod test, photograph.</param>
public sealed record SharpeningPlan(ImmutableArray<SharpeningStep> Steps, ImmutableArray<string> Before, ImmutableArray<string> After)
{
    /// <summary>Plans the work that a verdict calls for.</summary>
    /// <param name="today">Today's face view.</param>
    /// <param name="verdict">Its verdict; only limits that are clearly exceeded make work.</param>
    /// <param name="stones">Stone angles from the toe or side view, by edge; may lack some or all.</param>
    /// <param name="workingEdge">Of an area-specific curette: only that edge is ground. Null: both are planned, and the plan says so.</param>
    /// <returns>The plan; without steps for keep, retake and retire.</returns>
    /// <remarks>
    /// Cost of a rounding: the face is flat up to r cot(β/2) inside the corner where face and lateral surface would meet, and the silhouette lies r (cot(β/2) - 1) inside it. Grinding
    /// the lateral surface back to the flat face therefore moves the edge by r, whatever the angle β. A nick costs its depth. An angle to be restored costs what its
    /// <see cref="StonePlan"/> says, on top.
    /// </remarks>
    public static SharpeningPlan For(FaceMeasurement today, Verdict verdict, IReadOnlyDictionary<EdgePart, StonePlan> stones, EdgePart? workingEdge = null)
    {
        ArgumentNullException.ThrowIfNull(today);
        ArgumentNullException.ThrowIfNull(verdict);
        ArgumentNullException.ThrowIfNull(stones);
        if (verdict.Kind is not (VerdictKind.TouchUp or VerdictKind.Resharpen)) return new([], [], []);
        FamilyTraits traits = FamilyTraits.Of(today.Family);
        LimitCheck[] work = [.. verdict.Checks.Where(c => c.IsExceeded && c.Role is LimitRole.TouchUp or LimitRole.Resharpen)];
        // A face angle or a shape that calls for the stone means every edge that cuts.
        ImmutableArray<EdgePart> cutting = CuttingParts.Of(today.Family, workingEdge).Needed;
        bool isWhole = work.Any(c => c.Part is null);
        EdgePart[] edges = [.. work.Where(c => c.Part is not null).Select(c => c.Part!.Value).Concat(isWhole ? cutting : []).Distinct().OrderBy(e => Order(e, work))];
        SharpeningStep[] steps = [.. edges.Select(e => Step(e, today, [.. work.Where(c => c.Part == e)], isWhole, stones.GetValueOrDefault(e), traits))];
        return new([.. steps], Preparing(traits, workingEdge), Finishing(traits));
    }

    // The deepest damage first, so that the other edge can be matched to it; the toe joins the edges and comes last.
    private static double Order(EdgePart edge, LimitCheck[] work)
    {
        double nick = work.Where(c => c.Part == edge && c.What == CheckedFigure.NickDepth).Select(c => c.Figure.Measured?.Value ?? 0).DefaultIfEmpty(0).Max();
        return edge == EdgePart.Toe ? 1e6 : -nick + 0.1 * (int)edge;
    }

    private static SharpeningStep Step(EdgePart edge, FaceMeasurement today, LimitCheck[] work, bool isWhole, StonePlan? stone, FamilyTraits traits)
    {
        bool isFull = isWhole || work.Any(c => c.Role == LimitRole.Resharpen);
        ImmutableArray<Stretch> where = isFull ? [] : [.. work.SelectMany(c => c.Where).Distinct().OrderBy(s => s.FromStationMm)];
        Measured family = new(180 - (traits.EdgeAngleMinDeg + traits.EdgeAngleMaxDeg) / 2, Quadrature.FromLimits((traits.EdgeAngleMaxDeg - traits.EdgeAngleMinDeg) / 2));
        Measured angle = stone?.StoneToFaceDeg ?? family;
        Figure cost = Cost(edge, today, work, stone);
        string strokes = isFull
            ? traits.TipCuts ? "strokes along the whole tip arc, the last two or three upwards" : $"even strokes from the heel to the {PlaceText.EndOf(today.Family)}, along the whole edge"
            : $"a few light strokes {PlaceText.From([.. where], today.Family)}";
        string turn = stone?.Error switch
        {
            CutError.OverCut => " The edge was cut too thin: hold the stone nearer to upright on the face than last time.",
            CutError.UnderCut => " The edge was cut too blunt: open the stone further than last time.",
            _ => "",
        };
        string second = SecondBevelText.Plan(stone?.SecondBevel, angle.Value);
        string steel = cost.Measured is { } um ? $" Expect to take off {FigureText.WithUncertainty(um, "µm")}." : $" What it takes off is not known ({FigureText.WhyMissing(cost.WhyMissing)}).";
        string held = traits.TipCuts
            ? FormattableString.Invariant($"the bevel flat on the stone, {180 - angle.Value:0}° to the opposite surface")
            : FormattableString.Invariant($"the stone at {angle.Value:0}° to the face{(stone is null ? " (the family's usual angle)" : "")}");
        return new(edge, isFull, where, angle, stone is null, cost, $"{PlaceText.Sentence(PlaceText.Name(edge, today.Family))}: {strokes}, {held}.{turn}{second}{steel}");
    }

    private static Figure Cost(EdgePart edge, FaceMeasurement today, LimitCheck[] work, StonePlan? stone)
    {
        List<Measured> causes = [.. work.Where(c => c.What == CheckedFigure.NickDepth).Select(c => c.Figure.Measured).OfType<Measured>()];
        if (today.Light.Edges.FirstOrDefault(e => e.Part == edge)?.Radius.GreatestUm.Measured is { } radius) causes.Add(radius);
        Measured? angle = stone?.CostUm.Measured;
        if (causes.Count == 0 && angle is null) return Figure.Missing("the edge's rounding is not measured");
        Measured deepest = causes.Count == 0 ? new(0, 0) : causes.MaxBy(c => c.Value);
        return angle is { } a && stone!.Error != CutError.None ? new Measured(deepest.Value + a.Value, Quadrature.Sum(deepest.StandardUncertainty, a.StandardUncertainty)) : deepest;
    }

    private static ImmutableArray<string> Preparing(FamilyTraits traits, EdgePart? workingEdge) =>
    [
        "Clean and sterilise the instrument; wear eye protection; rest it against the bench, its working end in good light.",
        .. traits.Family == InstrumentFamily.AreaSpecificCurette && workingEdge is null ? (string[])["Area-specific curettes cut with one edge on each end, the lower one with the terminal shank upright: grind only that one."] : [],
        .. traits.Family == InstrumentFamily.AreaSpecificCurette && workingEdge is { } edge ? (string[])[$"Grind only the {edge.ToString().ToLowerInvariant()} edge: the other one does not cut on this end."] : [],
    ];

    private static ImmutableArray<string> Finishing(FamilyTraits traits) =>
    [
        traits.TipCuts ? "Finish on an upward stroke, two or three times, so that no wire edge is left." : "Take off a wire edge with one light stroke along the face.",
        "Wipe the metal dust off and test on a plastic rod: a sharp edge bites, a dull one slides.",
        "Photograph it again and compare it with as-new: no line of light is left, and the loss is what was expected.",
    ];
}
