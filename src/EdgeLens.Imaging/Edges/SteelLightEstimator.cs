using EdgeLens.Imaging.Photographs;
using OpenCvSharp;

namespace EdgeLens.Imaging.Edges;

/// <summary>
/// How steel shows the panels in this photograph, from the photograph itself: the level from the shank's own highlight (the same steel, fully
/// lit), the angle that a panel fills from how much light it throws on the paper for its brightness.
/// </summary>
/// <remarks>
/// A panel of radiance L is seen in steel of reflectance ρs as level A = ρs L. The paper (reflectance ρp) under n such panels of solid angle Ω,
/// elevation ε over the card, and a room of radiance La shows white = ρp / π (n L Ω sin ε + π La), while the face, a mirror lying level, shows
/// F = ρs La. So n Ω sin ε = π ρs (white / ρp - F / ρs) / A: level and paper give the panel's size. A square panel of half angle h fills
/// Ω = 4 asin(sin² h). Mirrored in the rounding it lies between the tilts (90° - ε ∓ h) / 2 of the normal. Derivation: docs/physics/steel-light.md.
/// </remarks>
public static class SteelLightEstimator
{
    // Steel's reflectance for visible light, 0.55 to 0.60 (iron and chromium, from memory).
    private const double SteelReflectance = 0.57;

    // Panels stand 30 to 45° above the face's plane and fill 35 to 60° as seen from the blade (measurands.md, "Light").
    private const double ElevationDeg = 38;
    private const double ElevationSigmaDeg = 5;
    private const double HalfAngleDeg = 24;
    private const double HalfAngleSigmaDeg = 4.5;

    // The face mirrors the room overhead, the paper sees all of it, darker towards the horizon: on average this share of what is overhead (± 0.15 of the whole).
    private const double RoomShare = 0.8;

    // Highlights are sought in a picture reduced to this width: a shank's highlight is some tenths of a millimetre wide.
    private const int ReducedWidthPx = 1000;

    // Two nominal panels (24°, 38°) without a room give 2.6 times the paper (docs/physics/steel-light.md); a room that adds a tenth to the paper, 2.3.
    private const double NominalOverPaper = 2.3;

    // Within a grey level or two of white the photograph may be clipped.
    private const double ClippedLevel = 0.97;

    /// <summary>The shank's highlight is brighter than paper by more than this factor (paper varies by a tenth over the card).</summary>
    public const double BrighterThanPaper = 1.2;

    // Share of the bright pixels below the highlight's plateau: its rims, blurred.
    private const double PlateauQuantile = 0.9;

    // Least area of highlight that shows a plateau.
    private const double LeastHighlightMm2 = 0.15;

    /// <summary>Estimates panels of unknown place from the brightest highlight anywhere.</summary>
    /// <param name="grey">The photograph's luma, borrowed.</param>
    /// <param name="paperLevel">Linear brightness of the card's white next to the window.</param>
    /// <param name="paperReflectance">Of the card's white.</param>
    /// <param name="faceLevel">Linear brightness of the blade's face.</param>
    /// <param name="mmPerPx">In the plane of the card.</param>
    /// <returns>If there is one panel, and if there are two alike: of the same light on the paper each of two is smaller.</returns>
    public static (SteelLight One, SteelLight OfTwo) Estimate(Mat grey, double paperLevel, double paperReflectance, double faceLevel, double mmPerPx)
    {
        ArgumentNullException.ThrowIfNull(grey);
        HighlightLevel level = Level(grey, paperLevel, mmPerPx);
        return (Of([level], paperLevel, paperReflectance, faceLevel)[0], Of([level, level], paperLevel, paperReflectance, faceLevel)[0]);
    }

    /// <summary>Estimates the panels whose highlights were told apart; they are taken to be of one size.</summary>
    /// <param name="highlights">One or two.</param>
    /// <param name="paperLevel">Linear brightness of the card's white next to the window.</param>
    /// <param name="paperReflectance">Of the card's white.</param>
    /// <param name="faceLevel">Linear brightness of the blade's face.</param>
    public static SteelLight[] Of(IReadOnlyList<HighlightLevel> highlights, double paperLevel, double paperReflectance, double faceLevel)
    {
        ArgumentNullException.ThrowIfNull(highlights);
        double sum = highlights.Sum(h => h.Level), uncertainty = highlights.Sum(h => h.Level * h.RelativeUncertainty) / sum;
        double panelLight = Math.PI * SteelReflectance * (paperLevel / paperReflectance - RoomShare * faceLevel / SteelReflectance) / sum;
        double elevation = ElevationDeg * Math.PI / 180;
        double solidAngle = Math.Clamp(panelLight / Math.Sin(elevation), 0.05, 3);
        double seenDeg = Math.Asin(Math.Sqrt(Math.Sin(solidAngle / 4))) * 180 / Math.PI;
        // Half angle goes with the root of the solid angle: half the level's, the elevation's and the room's relative uncertainties.
        double seenSigmaDeg = seenDeg * 0.5 * Math.Sqrt(uncertainty * uncertainty + Math.Pow(ElevationSigmaDeg * Math.PI / 180 / Math.Tan(elevation), 2) + 0.15 * 0.15);
        double prior = 1 / (HalfAngleSigmaDeg * HalfAngleSigmaDeg), seen = 1 / (seenSigmaDeg * seenSigmaDeg);
        double half = (prior * HalfAngleDeg + seen * seenDeg) / (prior + seen);
        double relative = Math.Sqrt(1 / (prior + seen)) / half;
        return [.. highlights.Select(h => new SteelLight(h.Level, h.RelativeUncertainty, ElevationDeg, half, relative, h.Source))];
    }

    /// <summary>What a highlight's plateau says about the level of fully lit steel.</summary>
    /// <param name="plateau">Its linear brightness.</param>
    /// <param name="paperLevel">Linear brightness of the card's white.</param>
    public static HighlightLevel OfPlateau(double plateau, double paperLevel) =>
        // A clipped highlight tells only that the level is at least full scale (1.1 ± 20 %); else grinding marks and blurred rims leave the plateau uncertain by a tenth.
        plateau >= ClippedLevel ? new(Math.Max(1.1, NominalOverPaper * paperLevel), 0.2, "the shank's highlight, clipped") : new(plateau, 0.1, "the shank's highlight");

    private static HighlightLevel Level(Mat grey, double paperLevel, double mmPerPx)
    {
        double factor = Math.Min(1, (double)ReducedWidthPx / grey.Cols);
        using Mat reduced = new();
        Cv2.Resize(grey, reduced, default, factor, factor, InterpolationFlags.Area);
        int bright = (int)Math.Ceiling(255 * LinearLight.Encode(Math.Min(1, BrighterThanPaper * paperLevel)));
        int[] histogram = new int[256];
        int rows = reduced.Rows, count = 0;
        for (int y = 0; y < rows; y++)
        {
            foreach (byte tone in reduced.RowSpan<byte>(y))
            {
                if (tone < bright) continue;
                histogram[tone]++;
                count++;
            }
        }
        double areaMm2 = count * Math.Pow(mmPerPx / factor, 2);
        if (areaMm2 < LeastHighlightMm2)
            // 30 %: the spread of panels.
            return new(NominalOverPaper * paperLevel, 0.3, "nominal panels: the shank shows no highlight");
        int tone90 = 0;
        for (int sum = 0; tone90 < 255 && sum < PlateauQuantile * count; tone90++) sum += histogram[tone90];
        return OfPlateau(LinearLight.OfTone[Math.Max(0, tone90 - 1)], paperLevel);
    }
}

/// <summary>Level of fully lit steel as a highlight shows it.</summary>
/// <param name="Level">Linear brightness, share of full scale.</param>
/// <param name="RelativeUncertainty">Standard uncertainty, relative.</param>
/// <param name="Source">In words.</param>
public readonly record struct HighlightLevel(double Level, double RelativeUncertainty, string Source);
