using EdgeLens.Geometry.Figures;

namespace EdgeLens.Measuring.Views;

/// <summary>Refusals that toe and side view share.</summary>
internal static class ViewRefusals
{
    /// <summary>The window is not in the picture.</summary>
    public static Refusal WindowNotSeen { get; } = new("window-not-seen", "The card's black window is not in the picture.",
        "Hold the camera so that the window fills most of the picture, and take the photograph again.");
}
