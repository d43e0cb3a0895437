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
            j.WriteObjects("dullStretches", e.DullStretches, (k, d) =>
            {
                k.WriteRounded("fromStationMm", d.FromStationMm);
                k.WriteRounded("toStationMm", d.ToStationMm);
                k.WriteMeasured("greatestReflectionWidthUm", d.GreatestReflectionWidthUm);
            });
        });
        json.WriteObjects("samples", light.Samples, (j, s) =>
        {
            j.WriteString("part", FigureWriting.Name(s.Part));
            j.WriteRounded("arcMm", s.ArcMm);
            j.WriteRounded("stationMm", s.StationMm);
            j.WriteFigure("reflectionWidthUm", s.ReflectionWidthUm);
        });
        json.WriteEndObject();
    }
}
