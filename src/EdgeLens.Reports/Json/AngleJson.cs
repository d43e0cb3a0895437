using System.Text.Json;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Sharpening;

namespace EdgeLens.Reports.Json;

/// <summary>A toe or side view, its drift, and the stone's plan.</summary>
internal static class AngleJson
{
    public static void Write(Utf8JsonWriter json, AngleMeasurement angles)
    {
        FaceJson.WritePhotograph(json, angles.Photograph);
        json.WriteString("view", FigureWriting.Name(angles.View));
        json.WriteFigure("faceAngleDeg", angles.FaceAngleDeg);
        json.WriteFigure("internalAngleLeftDeg", angles.InternalAngleLeftDeg);
        json.WriteFigure("internalAngleRightDeg", angles.InternalAngleRightDeg);
        json.WriteString("cuttingEdges", angles.CuttingEdges is { } edges ? FigureWriting.Name(edges) : null);
        json.WriteFigure("wedgeAngleDeg", angles.WedgeAngleDeg);
        json.WriteFigure("tipThicknessUm", angles.TipThicknessUm);
        json.WriteFigure("bevelEndMm", angles.BevelEndMm);
        if (angles.SecondBevel.IsThere is { } isThere) json.WriteBoolean("hasSecondBevel", isThere);
        else json.WriteNull("hasSecondBevel");
        json.WriteFigure("secondBevelLengthMm", angles.SecondBevel.LengthMm);
        json.WriteFigure("secondBevelSteeperDeg", angles.SecondBevel.SteeperDeg);
        json.WriteFigure("edgeWedgeAngleDeg", angles.SecondBevel.EdgeAngleDeg);
        if (angles.SecondBevel.ToldFromMm is { } mm) json.WriteRounded("secondBevelToldFromMm", mm);
        else json.WriteNull("secondBevelToldFromMm");
        if (angles.TipRadiusBelowUm is { } um) json.WriteRounded("tipRadiusBelowUm", um);
        else json.WriteNull("tipRadiusBelowUm");
        WriteSection(json, "leftSection", angles.LeftSection);
        WriteSection(json, "rightSection", angles.RightSection);
        json.WriteObjects("lines", angles.Lines, (j, line) =>
        {
            j.WriteString("role", FigureWriting.Name(line.Role));
            j.WriteRounded("fromXPx", line.From.X);
            j.WriteRounded("fromYPx", line.From.Y);
            j.WriteRounded("toXPx", line.To.X);
            j.WriteRounded("toYPx", line.To.Y);
        });
    }

    public static void Write(Utf8JsonWriter json, AngleDrift drift)
    {
        json.WriteFigure("faceAngleDeg", drift.FaceAngleDeg);
        json.WriteFigure("internalAngleLeftDeg", drift.InternalAngleLeftDeg);
        json.WriteFigure("internalAngleRightDeg", drift.InternalAngleRightDeg);
        json.WriteFigure("wedgeAngleDeg", drift.WedgeAngleDeg);
    }

    public static void Write(Utf8JsonWriter json, EdgeStonePlan edge)
    {
        json.WriteString("part", FigureWriting.Name(edge.Edge));
        json.WriteBoolean("isFromFamily", edge.FromFamily);
        if (edge.Plan is not { } plan)
        {
            json.WriteMissing("stoneToFaceDeg", edge.WhyMissing ?? "not measured");
            return;
        }
        json.WriteMeasured("stoneToFaceDeg", plan.StoneToFaceDeg);
        json.WriteMeasured("correctionDeg", plan.CorrectionDeg);
        json.WriteString("cutError", FigureWriting.Name(plan.Error));
        json.WriteFigure("widthCostUm", plan.CostUm);
    }

    private static void WriteSection(Utf8JsonWriter json, string name, SectionProfile? section)
    {
        if (section is null)
        {
            json.WriteNull(name);
            return;
        }
        json.WriteObjects(name, section.Points, (j, p) =>
        {
            j.WriteRounded("inwardMm", p.InwardMm);
            j.WriteRounded("depthMm", p.DepthMm);
        });
    }
}
