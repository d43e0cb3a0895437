namespace EdgeLens.Assessment.Measurements;

/// <summary>Where the relative standard uncertainty of one photograph's lengths comes from; independent of each other.</summary>
/// <param name="Corners">Where the card's corners were found.</param>
/// <param name="Print">The print's bars.</param>
/// <param name="Lens">Focal length, distortion, camera distance.</param>
/// <param name="Height">Height of the face over the card.</param>
public sealed record ScaleParts(double Corners, double Print, double Lens, double Height)
{
    /// <summary>
    /// The caliper's readings of the bars, as a name for the print: two photographs with the same readings are taken to show the same print, whose error then
    /// cancels in their ratio. Null where the bars were not measured: then two prints may differ by their full uncertainty.
    /// </summary>
    public string? PrintName { get; init; }
}
