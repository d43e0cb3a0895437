using System.Text.Json;
using EdgeLens.Assessment.Measurements;

namespace EdgeLens.Reports.Json;

/// <summary>The light along the edges.</summary>
internal static class LightJson
{
    public static void Write(Utf8JsonWriter json, EdgeLight light)
    {
        json.WriteStartObject("light");
        json.WriteString("referenceDescription", light.ReferenceDescription);
        json.WriteOptional("sharpLimitUm", light.SharpLimitUm);
        json.WriteObjects("edges", light.Edges, (j, e) =>
        {
            j.WriteString("part", FigureWriting.Name(e.Part));
            j.WriteFigure("reflectingFractionPercent", e.ReflectingFractionPercent);
            j.WriteFigure("greatestReflectionWidthUm", e.GreatestReflectionWidthUm);
            j.WriteFigure("greatestRadiusUm", e.Radius.GreatestUm);
            j.WriteFigure("workingThirdRadiusUm", e.Radius.WorkingThirdUm);
            j.WriteFigure("radiusAt1MmUm", e.Radius.At1MmUm);
            j.WriteFigure("radiusAt2MmUm", e.Radius.At2MmUm);
            j.WriteObjects("dullStretches", e.DullStretches, (k, d) =>
            {
                k.WriteRounded("fromStationMm", d.FromStationMm);
                k.WriteRounded("toStationMm", d.ToStationMm);
                k.WriteRounded("lengthMm", d.LengthMm);
                k.WriteMeasured("greatestReflectionWidthUm", d.GreatestReflectionWidthUm);
                k.WriteFigure("greatestRadiusUm", d.GreatestRadiusUm);
            });
        });
        json.WriteObjects("samples", light.Samples, (j, s) =>
        {
            j.WriteString("part", FigureWriting.Name(s.Part));
            j.WriteRounded("arcMm", s.ArcMm);
            j.WriteRounded("stationMm", s.StationMm);
            j.WriteFigure("reflectionWidthUm", s.ReflectionWidthUm);
            j.WriteFigure("radiusUm", s.RadiusUm);
        });
        json.WriteEndObject();
    }
}
