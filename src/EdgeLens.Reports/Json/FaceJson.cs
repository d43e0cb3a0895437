using System.Text.Json;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Reports.Json;

/// <summary>A face view: photograph, scale, quality, figures, outline and light.</summary>
internal static class FaceJson
{
    public static void Write(Utf8JsonWriter json, FaceMeasurement face)
    {
        WritePhotograph(json, face.Photograph);
        WriteScale(json, face.Scale);
        WriteQuality(json, face.Quality);
        json.WriteRounded("stationOriginZMm", face.StationOriginZMm);
        json.WriteFigure("toeRadiusUm", face.ToeRadiusUm);
        json.WriteFigure("tipWidthUm", face.TipWidthUm);
        json.WriteFigure("tipArcRadiusMm", face.TipArcRadiusMm);
        json.WriteObjects("widthsAtStations", face.Widths, (j, w) =>
        {
            j.WriteRounded("stationMm", w.StationMm);
            j.WriteMeasured("widthMm", w.WidthMm);
            j.WriteRounded("localStandardUncertaintyMm", w.LocalStandardUncertaintyMm);
        });
        json.WriteObjects("nicks", face.Nicks, (j, n) =>
        {
            j.WriteString("part", FigureWriting.Name(n.Part));
            j.WriteRounded("stationMm", n.StationMm);
            j.WriteRounded("arcMm", n.ArcMm);
            j.WriteMeasured("depthUm", n.DepthUm);
            j.WriteMeasured("lengthMm", n.LengthMm);
        });
        json.WriteBudgets("budgets", FaceBudgets.Of(face));
        LightJson.Write(json, face.Light);
        WriteOutline(json, face.Outline);
    }

    public static void WriteSimilarity(this Utf8JsonWriter json, string name, Similarity similarity)
    {
        json.WriteStartObject(name);
        // A scale or angle of a transform is multiplied by millimetres: it keeps all its digits.
        json.WriteNumber("scale", similarity.Scale);
        json.WriteNumber("angleRad", similarity.AngleRad);
        json.WriteRounded("dxMm", similarity.Dx);
        json.WriteRounded("dyMm", similarity.Dy);
        json.WriteBoolean("isMirrored", similarity.Mirrored);
        json.WriteEndObject();
    }

    public static void WritePhotograph(Utf8JsonWriter json, PhotographSummary photograph)
    {
        json.WriteStartObject("photograph");
        json.WriteString("fileName", photograph.FileName);
        json.WriteString("sha256", photograph.Sha256);
        json.WriteNumber("widthPx", photograph.WidthPx);
        json.WriteNumber("heightPx", photograph.HeightPx);
        json.WriteEndObject();
    }

    private static void WriteScale(Utf8JsonWriter json, ScaleSummary scale)
    {
        json.WriteStartObject("scale");
        json.WriteNumber("mmPerPx", Math.Round(scale.MmPerPx, 9));
        json.WriteRounded("relativeStandardUncertaintyPercent", 100 * scale.RelativeStandardUncertainty);
        json.WriteNumber("cornerCount", scale.CornerCount);
        json.WriteRounded("cornerResidualPx", scale.CornerResidualPx);
        json.WriteMeasured("tiltDeg", scale.TiltDeg);
        json.WriteMeasured("distanceMm", scale.DistanceMm);
        json.WriteMeasured("heightOverCardMm", scale.HeightOverCardMm);
        json.WriteOptional("viewSlopeX", scale.ViewSlope?.X);
        json.WriteOptional("viewSlopeY", scale.ViewSlope?.Y);
        json.WriteEndObject();
    }

    private static void WriteQuality(Utf8JsonWriter json, QualitySummary quality)
    {
        json.WriteStartObject("quality");
        json.WriteMeasured("blurSigmaUm", quality.BlurSigmaUm);
        json.WriteRounded("clippedEdgePercent", quality.ClippedEdgePercent);
        json.WriteRounded("groundLevelPercent", 100 * quality.GroundLevel);
        json.WriteRounded("faceLevelPercent", 100 * quality.FaceLevel);
        json.WriteEndObject();
    }

    private static void WriteOutline(Utf8JsonWriter json, Outline outline)
    {
        json.WriteStartObject("outline");
        json.WriteNumber("apexIndex", outline.ApexIndex);
        json.WriteSimilarity("bladeFromCard", outline.BladeFromCard);
        json.WriteObjects("points", outline.Points, (j, p) =>
        {
            j.WriteRounded("xMm", p.Position.XMm);
            j.WriteRounded("zMm", p.Position.ZMm);
            j.WriteRounded("arcMm", p.ArcMm);
            j.WriteRounded("inwardX", p.Inward.X);
            j.WriteRounded("inwardZ", p.Inward.Y);
            j.WriteRounded("standardUncertaintyUm", p.StandardUncertaintyUm);
        });
        json.WriteEndObject();
    }
}
