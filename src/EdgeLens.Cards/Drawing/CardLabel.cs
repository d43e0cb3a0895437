using EdgeLens.Cards.Fonts;
using EdgeLens.Imaging.Cards;
using SkiaSharp;

namespace EdgeLens.Cards.Drawing;

/// <summary>A short text on a card.</summary>
/// <param name="Text">What it says.</param>
/// <param name="Start">Left end of its middle line (half the height of a capital over the baseline).</param>
/// <param name="SizeMm">Em size.</param>
/// <param name="IsDownwards">Reads from top to bottom, else from left to right.</param>
/// <param name="Tone">0 black to 255 white.</param>
internal sealed record CardLabel(string Text, DesignPoint Start, double SizeMm, bool IsDownwards = false, byte Tone = 0)
{
    private const double UsualSizeMm = 1.3, LeastSizeMm = 0.8;

    /// <summary>In the usual size or as small as the room asks; null when that is too small to read.</summary>
    internal static CardLabel? Fitted(string text, DesignPoint start, double roomMm)
    {
        using SKFont font = CardFonts.Of(UsualSizeMm);
        double size = UsualSizeMm * Math.Min(1, roomMm / font.MeasureText(text));
        return size < LeastSizeMm ? null : new(text, start, size);
    }

    /// <summary>The letters' outlines on the card, owned by the caller.</summary>
    internal SKPath Outlines()
    {
        using SKFont font = CardFonts.Of(SizeMm);
        using SKPath upright = font.GetTextPath(Text, new SKPoint(0, font.Metrics.CapHeight / 2));
        SKMatrix turn = IsDownwards ? SKMatrix.CreateRotationDegrees(90) : SKMatrix.Identity;
        SKPath placed = new();
        upright.Transform(turn.PostConcat(SKMatrix.CreateTranslation((float)Start.XMm, (float)Start.YMm)), placed);
        return placed;
    }
}
