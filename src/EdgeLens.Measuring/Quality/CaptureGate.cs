using EdgeLens.Geometry.Figures;
using EdgeLens.Measuring.Inspection;

namespace EdgeLens.Measuring.Quality;

/// <summary>What refuses a photograph before or while its edge is measured.</summary>
internal static class CaptureGate
{
    /// <summary>No white of the card is in the picture.</summary>
    public static Refusal CardHidden { get; } = new("card-hidden", "Too little of the reference card can be seen.",
        "Keep squares of the card in view on all sides of the window and take the photograph again.");

    /// <summary>Hardly any of the window is in the picture.</summary>
    public static Refusal WindowNotSeen { get; } = new("cut-off", "The card's window is not in the picture.",
        "Point the camera at the window, so that the whole blade is in the picture, and take the photograph again.");

    /// <summary>Exposure and tilt.</summary>
    public static Refusal? Check(double paperLevel, Measured tiltDeg, InspectorOptions options)
    {
        if (paperLevel > options.GreatestPaperLevel)
            return new("overexposed", "The photograph is overexposed: the card's paper and the light on the edge are clipped.",
                "Expose less (tap on the bright line, or set the exposure down by one to two steps) and take the photograph again.", 100 * paperLevel, 100 * options.GreatestPaperLevel, "% of full scale on white paper");
        if (paperLevel < options.LeastPaperLevel)
            return new("underexposed", "The photograph is too dark.", "Use more light or expose longer and take the photograph again.", 100 * paperLevel, 100 * options.LeastPaperLevel, "% of full scale on white paper");
        // Refused only when the tilt is beyond the limit by its own uncertainty: a camera just at the limit still measures.
        if (tiltDeg.Value - tiltDeg.ExpandedUncertainty > options.GreatestTiltDeg)
            return new("tilted", "The camera is tilted too far from square to the card.", "Hold the phone parallel to the card and take the photograph again.", tiltDeg.Value, options.GreatestTiltDeg, "°");
        return null;
    }

    /// <summary>Focus at the cutting edge.</summary>
    public static Refusal? CheckBlur(Measured blurUm, InspectorOptions options) => blurUm.Value <= options.GreatestBlurUm
        ? null
        : new("out-of-focus", "The cutting edge is out of focus.", "Focus on the blade (tap on it), hold the distance, and take the photograph again.", blurUm.Value, options.GreatestBlurUm, "µm");
}
