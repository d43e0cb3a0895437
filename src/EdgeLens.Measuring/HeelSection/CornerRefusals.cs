using EdgeLens.Geometry.Figures;

namespace EdgeLens.Measuring.HeelSection;

/// <summary>Why a corner of a scaler's face is not told, and what to change in the photograph.</summary>
internal static class CornerRefusals
{
    /// <summary>No contour can be told from the window.</summary>
    public static Refusal Dark(int side) => new("corner-dark", $"The scaler's corner on the picture's {Side(side)}, at the heel, is as dark as the window behind it.",
        "Look straight along the blade, let both panels shine on its sides, and take the photograph again.");

    /// <summary>The contours are out of focus.</summary>
    public static Refusal Blurred(int side) => new("heel-blurred", $"The scaler's corner on the picture's {Side(side)} is out of focus: the corners of a scaler's face are at the heel, not at the tip.",
        "Focus on the heel, where the blade meets the shank, and take the photograph again.");

    /// <summary>No two straight contours meet: the bowed edge stands out beside the corner.</summary>
    public static Refusal Hidden(int side) => new("corner-hidden", $"The scaler's corner on the picture's {Side(side)} does not stand out: the edge before it hides it.",
        $"Turn the handle until the tip points a little less to the {Side(side)} and both corners stand out beside the blade, and take the photograph again.");

    private static string Side(int side) => side > 0 ? "right" : "left";
}
