using ScottPlot;
using SkiaSharp;

namespace EdgeLens.PracticeReports.Fonts;

/// <summary>DejaVu Sans, carried along in this assembly; for the pages and for the plots.</summary>
internal static class ReportFonts
{
    /// <summary>The family's name.</summary>
    public const string Family = "DejaVu Sans";

    private static readonly Lazy<SKTypeface> Regular = new(() => Load("DejaVuSans.ttf")), Bold = new(() => Load("DejaVuSans-Bold.ttf"));

    private static readonly Lazy<bool> ForPlots = new(() =>
    {
        ScottPlot.Fonts.FontResolvers.Insert(0, new Resolver());
        ScottPlot.Fonts.Default = ScottPlot.Fonts.Sans = Family;
        return true;
    });

    /// <summary>A font to draw with, owned by the caller.</summary>
    /// <param name="sizeMm">Em size.</param>
    /// <param name="bold">True for headings.</param>
    public static SKFont Of(double sizeMm, bool bold = false) => new(bold ? Bold.Value : Regular.Value, (float)sizeMm)
    {
        // Sizes of a few millimetres are a few "pixels" to Skia: with hinting or whole-pixel advances the letters would be spaced wrongly once scaled to the page.
        Subpixel = true,
        LinearMetrics = true,
        Hinting = SKFontHinting.None,
    };

    /// <summary>Makes the plots use the same fonts; once for the process.</summary>
    public static void UseInPlots() => _ = ForPlots.Value;

    private static SKTypeface Load(string resource)
    {
        using Stream font = typeof(ReportFonts).Assembly.GetManifestResourceStream(resource) ?? throw new InvalidOperationException($"The font {resource} is not in the assembly.");
        return SKTypeface.FromStream(font) ?? throw new InvalidOperationException($"The font {resource} cannot be read.");
    }

    private sealed class Resolver : IFontResolver
    {
        // The plots dispose what they get: each time a copy.
        public SKTypeface? CreateTypeface(string fontName, bool bold, bool italic) => fontName == Family ? Load(bold ? "DejaVuSans-Bold.ttf" : "DejaVuSans.ttf") : null;

        public SKTypeface? CreateTypeface(string fontName, FontWeight weight, FontSlant slant, FontSpacing spacing) => CreateTypeface(fontName, weight >= FontWeight.SemiBold, false);
    }
}
