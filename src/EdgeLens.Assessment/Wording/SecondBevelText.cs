using EdgeLens.Assessment.Measurements;

namespace EdgeLens.Assessment.Wording;

/// <summary>A second bevel in words.</summary>
public static class SecondBevelText
{
    /// <summary>What stands at the edge, in a sentence; null where none is told.</summary>
    private static string? Found(SecondBevel second)
    {
        ArgumentNullException.ThrowIfNull(second);
        return (second.LengthMm.Measured, second.SteeperDeg.Measured, second.EdgeAngleDeg.Measured) is ({ } length, { } steeper, { } edge)
            ? $"A second bevel, {FigureText.WithUncertainty(length, "mm")} long and {FigureText.WithUncertainty(steeper, "°")} steeper, stands at the edge, whose wedge is {FigureText.WithUncertainty(edge, "°")}."
            : null;
    }

    /// <summary>What stands at the edge and what to do about it, with a blank before it; nothing where none is told.</summary>
    /// <param name="second">Null where none is told.</param>
    /// <param name="stoneToFaceDeg">At which the one bevel is to be ground.</param>
    public static string Plan(SecondBevel? second, double stoneToFaceDeg) => second is null ? "" : $" {Found(second)} {Advice(180 - stoneToFaceDeg)}";

    /// <summary>What to do about it, in a sentence. It costs the edge nothing: the bevel is ground back until it meets the edge that is there.</summary>
    /// <param name="bevelDeg">Angle that the one bevel is to have.</param>
    private static string Advice(double bevelDeg) => FormattableString.Invariant($"Grind the whole bevel flat at {bevelDeg:0}° until the second one is gone and one bevel is left.");
}
