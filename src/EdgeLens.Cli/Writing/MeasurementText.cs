using System.Globalization;
using System.Text;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Sharpening;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Cli.Writing;

/// <summary>A measurement for a reader at the console; every figure with its expanded uncertainty.</summary>
internal static class MeasurementText
{
    public static string Of(Inspection inspection)
    {
        StringBuilder text = new();
        FamilyTraits traits = FamilyTraits.Of(inspection.Family);
        text.Append(CultureInfo.InvariantCulture, $"{inspection.InstrumentId} end {inspection.WorkingEnd}, {traits.Title}: {inspection.Verdict.Headline}\n");
        foreach (InspectionRefusal refused in inspection.Refusals) text.Append(CultureInfo.InvariantCulture, $"  refused: {refused.Refusal}\n");
        if (inspection.TodayAngles is { } angles) Angles(text, inspection, angles);
        if (inspection.Today is not { } face) return text.ToString();
        foreach (VerdictReason reason in inspection.Verdict.Reasons) text.Append(CultureInfo.InvariantCulture, $"  - {reason.Words}\n");

        Measured scale = new Measured(face.Scale.MmPerPx, face.Scale.MmPerPx * face.Scale.RelativeStandardUncertainty).Scale(1000);
        Line(text, "scale", FigureText.WithUncertainty(scale, "µm per pixel"));
        Line(text, "tilt of the camera", FigureText.WithUncertainty(face.Scale.TiltDeg, "°"));
        Line(text, "blur at the edge", FigureText.WithUncertainty(face.Quality.BlurSigmaUm, "µm"));
        if (traits.HasPointedTip) Line(text, "tip width", face.TipWidthUm, "µm");
        else if (traits.TipCuts) Line(text, "tip arc radius", face.TipArcRadiusMm, "mm");
        else Line(text, "toe radius", face.ToeRadiusUm, "µm");
        foreach (EdgeLightSummary edge in face.Light.Edges)
        {
            Line(text, $"{PlaceText.Name(edge.Part, inspection.Family)}: dull share", edge.ReflectingFractionPercent, "%");
            Line(text, $"{PlaceText.Name(edge.Part, inspection.Family)}: greatest edge radius", edge.Radius.GreatestUm, "µm");
            Line(text, $"{PlaceText.Name(edge.Part, inspection.Family)}: widest line of light", edge.GreatestReflectionWidthUm, "µm");
        }
        foreach (StationWidth width in face.Widths)
            Line(text, string.Create(CultureInfo.InvariantCulture, $"width {width.StationMm:0.0} mm back from the apex"), width.WidthMm, "mm");
        foreach (Nick nick in face.Nicks)
            Line(text, string.Create(CultureInfo.InvariantCulture, $"nick, {PlaceText.Name(nick.Part, inspection.Family)}, {nick.StationMm:0.0} mm back"), FigureText.WithUncertainty(nick.DepthUm, "µm deep"));
        if (face.Nicks.IsEmpty) Line(text, "nicks", "none");
        text.Append("± is the expanded uncertainty, k = 2 (about 95 %).\n");
        return text.ToString();
    }

    private static void Angles(StringBuilder text, Inspection inspection, AngleMeasurement angles)
    {
        if (angles.View == PhotographView.Side)
        {
            SecondBevel second = angles.SecondBevel;
            Line(text, second.IsThere == true ? "wedge angle, bevel" : "wedge angle", angles.WedgeAngleDeg, "°");
            if (second.IsThere == true)
            {
                Line(text, "wedge angle at the edge", second.EdgeAngleDeg, "°, of a second bevel");
                Line(text, "second bevel", second.LengthMm, "mm long");
                Line(text, "steeper by", second.SteeperDeg, "°");
            }
            else Line(text, "second bevel", second.IsThere == false ? $"none: {second.LengthMm.WhyMissing}" : second.LengthMm.WhyMissing ?? "not known");
            if (angles.TipRadiusBelowUm is { } um) Line(text, "tip's rounding, seen from the side", FormattableString.Invariant($"below {um:0} µm radius"));
            Line(text, "tip thickness", angles.TipThicknessUm, "µm");
            Line(text, "bevel ends", angles.BevelEndMm, "mm behind its corner with the face");
        }
        else
        {
            Line(text, "face to terminal shank", angles.FaceAngleDeg, "°");
            Line(text, "internal angle, left", angles.InternalAngleLeftDeg, "°");
            Line(text, "internal angle, right", angles.InternalAngleRightDeg, "°");
            if (angles.CuttingEdges is { } edges) Line(text, "made to cut with", edges == CuttingEdges.Both ? "both edges" : $"the {(edges == CuttingEdges.Left ? "left" : "right")} edge");
        }
        foreach (EdgeStonePlan edge in inspection.StonePlans)
            if (edge.Plan is { } plan) Line(text, $"stone to face, {PlaceText.Name(edge.Edge, inspection.Family)}", FigureText.WithUncertainty(plan.StoneToFaceDeg, "°"));
    }

    private static void Line(StringBuilder text, string name, Figure figure, string unit) =>
        Line(text, name, figure.Measured is { } measured ? FigureText.WithUncertainty(measured, unit) : $"not measured: {figure.WhyMissing}");

    private static void Line(StringBuilder text, string name, string value) => text.Append(CultureInfo.InvariantCulture, $"  {name,-38} {value}\n");
}
