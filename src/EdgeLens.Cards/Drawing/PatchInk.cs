using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;

namespace EdgeLens.Cards.Drawing;

/// <summary>A patch as it is printed.</summary>
/// <param name="Area">Where.</param>
/// <param name="Tone">0 black to 255 bare paper.</param>
internal sealed record PatchInk(DesignRectangle Area, byte Tone)
{
    /// <summary>
    /// The tone that reflects as much as wanted if the printer takes tones for sRGB and full tone for its paper (relative colorimetry): the share of the paper's light,
    /// encoded by IEC 61966-2-1. No printer does so exactly: the patches are nominal.
    /// </summary>
    internal static byte ToneFor(double reflectance, double paperReflectance) => (byte)Math.Round(255 * LinearLight.Encode(reflectance / paperReflectance));
}
