using System.Collections.Immutable;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Reports.Html.Sections;

/// <summary>One row of the table of figures.</summary>
/// <param name="Group">Heading that it stands under.</param>
/// <param name="Name">What it is.</param>
/// <param name="Where">On which edge and place; may be empty.</param>
/// <param name="Today">The figure.</param>
/// <param name="AsNew">The same when new; null where that means nothing.</param>
/// <param name="Unit">Of both.</param>
/// <param name="Checks">Its comparisons with limits, the mildest first.</param>
internal sealed record FigureRow(string Group, string Name, string Where, Figure Today, Figure? AsNew, string Unit, ImmutableArray<LimitCheck> Checks);

/// <summary>The rows of the table of figures, in the order of reading: light, nicks, angles, wear, shape.</summary>
internal static class FigureRows
{
    public static IEnumerable<FigureRow> Of(Inspection inspection) => inspection.Today is not { } today ? [.. Angles(inspection)] :
    [
        .. today.Light.Edges.OrderBy(e => e.Part).SelectMany(e => Light(inspection, e)),
        .. Nicks(inspection, today),
        .. Angles(inspection),
        .. Wear(inspection),
        .. Shape(inspection, today),
    ];

    /// <summary>What the family shows from the toe or the side; the change of each stands below it.</summary>
    private static IEnumerable<FigureRow> Angles(Inspection inspection)
    {
        const string Group = "Angles";
        if (inspection.TodayAngles is not { } now) yield break;
        AngleMeasurement? then = inspection.BaselineAngles;
        AngleDrift? drift = inspection.AngleDrift;
        (string Name, string Where, Figure Today, Figure? AsNew, Figure? Drift)[] angles = now.View == PhotographView.Side
            ? [("Wedge angle", now.SecondBevel.IsThere == true ? "of the bevel, behind the second one" : "", now.WedgeAngleDeg, then?.WedgeAngleDeg, drift?.WedgeAngleDeg)]
            :
            [
                ("Face to terminal shank", "", now.FaceAngleDeg, then?.FaceAngleDeg, drift?.FaceAngleDeg),
                ("Internal angle", "left edge", now.InternalAngleLeftDeg, then?.InternalAngleLeftDeg, drift?.InternalAngleLeftDeg),
                ("Internal angle", "right edge", now.InternalAngleRightDeg, then?.InternalAngleRightDeg, drift?.InternalAngleRightDeg),
            ];
        foreach (var a in angles)
        {
            yield return new(Group, a.Name, a.Where, a.Today, a.AsNew, "°", []);
            if (a.Drift is { Measured: not null } turned) yield return new(Group, "Change since new", a.Where, turned, null, "°", []);
        }
        if (now.View != PhotographView.Side) yield break;
        SecondBevel second = now.SecondBevel;
        if (second.IsThere == true) yield return new(Group, "Wedge angle at the edge", "of the second bevel", second.EdgeAngleDeg, then?.SecondBevel.EdgeAngleDeg, "°", []);
        yield return new(Group, "Thickness of the tip", "0.05 mm from the tip", now.TipThicknessUm, then?.TipThicknessUm, "µm", []);
        yield return new(Group, "Where the bevel ends", "behind its corner with the face", now.BevelEndMm, then?.BevelEndMm, "mm", []);
        yield return new(Group, "Rounding of the tip", "radius, seen from the side", Rounding(now), then is null ? null : Rounding(then), "µm", []);
        yield return new(Group, "Second bevel", "length", second.LengthMm, then?.SecondBevel.LengthMm, "mm", []);
        if (second.IsThere == true) yield return new(Group, "Second bevel", "steeper than the bevel by", second.SteeperDeg, then?.SecondBevel.SteeperDeg, "°", []);
    }

    /// <summary>A bound is no figure with an uncertainty: it is told in words.</summary>
    private static Figure Rounding(AngleMeasurement side) => Figure.Missing(side.TipRadiusBelowUm is { } um
        ? FormattableString.Invariant($"It is below {um:0} µm: a rounder tip would have been seen. The face view tells it nearer.")
        : "The side view does not tell it; the face view does, with the lamps ahead of the tip.");

    private static IEnumerable<FigureRow> Light(Inspection inspection, EdgeLightSummary edge)
    {
        const string Group = "Light on the edge";
        string where = PlaceText.Name(edge.Part, inspection.Family);
        EdgeLightSummary? asNew = inspection.Baseline?.Light.Edges.FirstOrDefault(e => e.Part == edge.Part);
        yield return new(Group, "Reflecting fraction", where, edge.ReflectingFractionPercent, asNew?.ReflectingFractionPercent, "%", Checks(inspection, CheckedFigure.ReflectingFraction, edge.Part));
        if (edge.ReflectingFractionPercent.Measured is null && edge.GreatestReflectionWidthUm.Measured is null) yield break; // one complaint about an edge is enough
        yield return new(Group, "Greatest edge radius over 0.5 mm", where, edge.Radius.GreatestUm, asNew?.Radius.GreatestUm, "µm", Checks(inspection, CheckedFigure.EdgeRadius, edge.Part));
        if (edge.Part != EdgePart.Toe)
        {
            yield return new(Group, "Edge radius, working third", where, edge.Radius.WorkingThirdUm, asNew?.Radius.WorkingThirdUm, "µm", []);
            yield return new(Group, "Edge radius 1 mm back", where, edge.Radius.At1MmUm, asNew?.Radius.At1MmUm, "µm", []);
            yield return new(Group, "Edge radius 2 mm back", where, edge.Radius.At2MmUm, asNew?.Radius.At2MmUm, "µm", []);
        }
        yield return new(Group, "Widest line of light over 0.5 mm", where, edge.GreatestReflectionWidthUm, asNew?.GreatestReflectionWidthUm, "µm", Checks(inspection, CheckedFigure.GreatestReflectionWidth, edge.Part));
    }

    private static IEnumerable<FigureRow> Nicks(Inspection inspection, FaceMeasurement today) => today.Nicks.Select(n => new FigureRow(
        "Nicks", "Depth of nick", $"{PlaceText.Name(n.Part, inspection.Family)}, {PlaceText.From(new Stretch(n.StationMm, n.StationMm), inspection.Family)}",
        n.DepthUm, null, "µm", [.. Checks(inspection, CheckedFigure.NickDepth, n.Part).Where(c => c.Where.Any(w => w.FromStationMm == n.StationMm))]));

    private static IEnumerable<FigureRow> Wear(Inspection inspection)
    {
        const string Group = "Metal lost since it was new";
        if (inspection.Drift is not { } drift) yield break;
        yield return new(Group, "Greatest edge loss", "", drift.GreatestEdgeLossUm, null, "µm", []);
        yield return new(Group, "Mean edge loss", "", drift.MeanEdgeLossUm, null, "µm", []);
        ImmutableArray<LimitCheck> width = Checks(inspection, CheckedFigure.WidthLoss, null);
        if (width.Length > 0) yield return new(Group, "Greatest width loss", PlaceText.From(width[0].Where, inspection.Family), width[0].Figure, null, "%", width);
        ImmutableArray<LimitCheck> length = Checks(inspection, CheckedFigure.LengthLoss, null);
        Figure lengthMm = length.Length > 0 ? length[0].Figure : drift.LengthLossUm.Measured is { } um ? um.Scale(1e-3) : drift.LengthLossUm;
        yield return new(Group, "Length loss", "", lengthMm, null, "mm", length);
        yield return new(Group, "Area loss", "", drift.AreaLossPercent, null, "%", []);
        yield return new(Group, "Shape drift", "left after an even loss is taken away", drift.ShapeDriftUm, null, "µm rms", []);
    }

    private static IEnumerable<FigureRow> Shape(Inspection inspection, FaceMeasurement today)
    {
        const string Group = "Shape";
        FamilyTraits traits = FamilyTraits.Of(inspection.Family);
        yield return traits switch
        {
            { TipCuts: true } => new(Group, "Radius of the tip arc", "", today.TipArcRadiusMm, inspection.Baseline?.TipArcRadiusMm, "mm", []),
            { HasPointedTip: true } => new(Group, "Width of the tip", "0.25 mm from the tip", today.TipWidthUm, inspection.Baseline?.TipWidthUm, "µm", []),
            _ => new(Group, "Radius of the toe", "", today.ToeRadiusUm, inspection.Baseline?.ToeRadiusUm, "µm", []),
        };
    }

    private static ImmutableArray<LimitCheck> Checks(Inspection inspection, CheckedFigure what, EdgePart? part) => [.. inspection.Verdict.Checks.Where(c => c.What == what && c.Part == part)];
}
