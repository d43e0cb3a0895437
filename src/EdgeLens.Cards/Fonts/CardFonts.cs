using SkiaSharp;

namespace EdgeLens.Cards.Fonts;

/// <summary>DejaVu Sans, carried along in this assembly (licence beside the files).</summary>
internal static class CardFonts
{
    private static readonly Lazy<SKTypeface> Regular = new(() => Load("DejaVuSans.ttf")), Bold = new(() => Load("DejaVuSans-Bold.ttf"));

    /// <summary>A font to draw with, owned by the caller.</summary>
    /// <param name="sizeMm">Em size.</param>
    /// <param name="bold">True for headings.</param>
    internal static SKFont Of(double sizeMm, bool bold = false) => new(bold ? Bold.Value : Regular.Value, (float)sizeMm)
    {
        // Sizes of a few millimetres are a few "pixels" to Skia: with hinting or whole-pixel advances the letters would be spaced wrongly once scaled to the page.
        Subpixel = true,
        LinearMetrics = true,
        Hinting = SKFontHinting.None,
    };

    private static SKTypeface Load(string resource)
    {
        using Stream font = typeof(CardFonts).Assembly.GetManifestResourceStream(resource) ?? throw new InvalidOperationException($"The font {resource} is not in the assembly.");
        return SKTypeface.FromStream(font) ?? throw new InvalidOperationException($"The font {resource} cannot be read.");
    }
}
