using System.Globalization;
using System.Text;
using EdgeLens.Imaging.Cards;
using SkiaSharp;

namespace EdgeLens.Cards.Drawing;

/// <summary>A card as SVG 1.1: one user unit is one millimetre, text as outlines, so that it looks and measures the same everywhere.</summary>
internal static class SvgCard
{
    internal static string Draw(CardArtwork art, string title)
    {
        StringBuilder svg = new();
        string size = $"{Mm(art.WidthMm)} {Mm(art.HeightMm)}";
        svg.Append("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{Mm(art.WidthMm)}mm\" height=\"{Mm(art.HeightMm)}mm\" viewBox=\"0 0 {size}\">\n");
        svg.Append(CultureInfo.InvariantCulture, $"<title>{System.Security.SecurityElement.Escape(title)}</title>\n");
        svg.Append(CultureInfo.InvariantCulture, $"<rect width=\"{Mm(art.WidthMm)}\" height=\"{Mm(art.HeightMm)}\" fill=\"#ffffff\"/>\n");
        svg.Append("<path id=\"black\" fill=\"#000000\" d=\"");
        foreach (DesignRectangle r in art.Black) svg.Append(CultureInfo.InvariantCulture, $"M{Mm(r.XMm)} {Mm(r.YMm)}H{Mm(r.RightMm)}V{Mm(r.BottomMm)}H{Mm(r.XMm)}Z");
        svg.Append("\"/>\n");
        foreach (PatchInk p in art.Patches)
            svg.Append(CultureInfo.InvariantCulture, $"<rect x=\"{Mm(p.Area.XMm)}\" y=\"{Mm(p.Area.YMm)}\" width=\"{Mm(p.Area.WidthMm)}\" height=\"{Mm(p.Area.HeightMm)}\" fill=\"{Grey(p.Tone)}\"/>\n");
        foreach (CardLabel label in art.Labels)
        {
            using SKPath letters = label.Outlines();
            svg.Append(CultureInfo.InvariantCulture, $"<path fill=\"{Grey(label.Tone)}\" d=\"{letters.ToSvgPathData()}\"/>\n");
        }

        string points = string.Join(' ', art.CutLine.Select(p => $"{Mm(p.XMm)},{Mm(p.YMm)}"));
        svg.Append(CultureInfo.InvariantCulture, $"<polygon id=\"cut\" fill=\"none\" stroke=\"#000000\" stroke-width=\"{Mm(CardArtwork.LineWidthMm)}\" points=\"{points}\"/>\n</svg>\n");
        return svg.ToString();
    }

    /// <summary>To a tenth of a micrometre.</summary>
    private static string Mm(double mm) => mm.ToString("0.####", CultureInfo.InvariantCulture);

    private static string Grey(byte tone) => $"#{tone:x2}{tone:x2}{tone:x2}";
}
